import { commonPractice } from '../../working/source.ts';
import { coatValues, type Product, type System } from './system.ts';

const id = 'water-borne-paving';
const name = 'Water-borne paving paint';

const paint: Product = {
  id: 'water-borne-paint',
  name: 'paving paint, water-borne',
  carrier: 'water',
  thinner: 'water',
};
const primer: Product = {
  id: 'water-borne-primer',
  name: 'concrete primer, water-borne',
  carrier: 'water',
  thinner: 'water',
};

export const waterBornePaving: System = {
  id,
  name,
  primerReason: 'A water-borne paint needs a primer where tyres turn: they lift it off bare concrete.',
  coats: [
    { role: 'primer', product: primer, ...coatValues(id, name, 'primer', 30, 25), when: 'under-vehicles' },
    {
      role: 'first',
      product: paint,
      ...coatValues(id, name, 'first', 42, 50),
      thinning: {
        key: `system.${id}.first.thinning`,
        group: name,
        name: 'water in the first coat on bare concrete',
        symbol: 'x',
        unit: '1',
        value: 0.2,
        low: 0,
        high: 0.5,
        source: commonPractice,
        note: 'Common practice says 20–30 %; public US guidance says at most 12.5 %: what the tin says goes before both.',
      },
      when: 'always',
    },
    { role: 'second', product: paint, ...coatValues(id, name, 'second', 42, 50), when: 'always' },
  ],
};
