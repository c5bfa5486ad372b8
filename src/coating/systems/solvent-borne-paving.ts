import { commonPractice } from '../../working/source.ts';
import { coatValues, type Product, type System } from './system.ts';

const id = 'solvent-borne-paving';
const name = 'Solvent-borne paving paint';

const paint: Product = {
  id: 'solvent-borne-paint',
  name: 'paving paint, solvent-borne',
  carrier: 'solvent',
  thinner: 'mineral turpentine',
};

export const solventBornePaving: System = {
  id,
  name,
  primerReason: 'A solvent-borne paint primes itself: its thinned first coat soaks in.',
  coats: [
    {
      role: 'first',
      product: paint,
      ...coatValues(id, name, 'first', 42, 50),
      thinning: {
        key: `system.${id}.first.thinning`,
        group: name,
        name: 'mineral turpentine in the first coat on bare concrete',
        symbol: 'x',
        unit: '1',
        value: 0.1,
        low: 0,
        high: 0.5,
        source: commonPractice,
        note: 'A US Army manual gives about 12.5 % reducer on concrete, which is close; thinning raises the VOC content: what the tin says goes first.',
      },
      when: 'always',
    },
    { role: 'second', product: paint, ...coatValues(id, name, 'second', 42, 50), when: 'always' },
  ],
};
