import { tr } from '../../words/tr.ts';
import { commonPractice } from '../../working/source.ts';
import { armyCoverage } from '../sources.ts';
import { filmCoat, type Product, type System, thinningOf, vocOf, yearsOf } from './system.ts';

const id = 'water-borne-paving';
const name = tr`Water-borne paving paint`;

const paint: Product = {
  id: 'water-borne-paint',
  name: tr`paving paint, water-borne`,
  kind: 'paint',
  carrier: 'water',
  thinner: 'water',
  ...vocOf('water-borne-paint', tr`paving paint, water-borne`, 'water', 50),
};

const primer: Product = {
  id: 'water-borne-primer',
  name: tr`concrete primer, water-borne`,
  kind: 'primer',
  carrier: 'water',
  thinner: 'water',
  ...vocOf('water-borne-primer', tr`concrete primer, water-borne`, 'water', 50),
};

export const waterBornePaving: System = {
  id,
  name,
  primerReason: tr`A water-borne paint needs a primer where tyres turn: they lift it off bare concrete.`,
  needs: 'profile',
  ...yearsOf(id, name, 4, 10),
  plain: tr`Holds its colour in the sun and smells little; needs warm dry weather and is softer while it is new.`,
  coats: [
    { ...filmCoat(id, name, 'primer', 30, 25), product: primer, when: 'under-vehicles' },
    {
      ...filmCoat(id, name, 'first', 42, 50),
      product: paint,
      thinning: thinningOf(id, name, 'first', 'water', 0.2, {
        note: tr`Common practice says 20–30 %; a US Army table has about 12.5 % for oil paint on concrete: what the tin says goes before both, and more than it allows costs film and hiding.`,
        choices: [
          { value: 0.2, source: commonPractice },
          { value: 0.3, source: commonPractice },
          { value: 0.125, source: armyCoverage },
        ],
      }),
      when: 'always',
    },
    { ...filmCoat(id, name, 'second', 42, 50), product: paint, when: 'always' },
  ],
};
