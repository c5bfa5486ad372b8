import { tr } from '../../words/tr.ts';
import { commonPractice } from '../../working/source.ts';
import { armyCoverage } from '../sources.ts';
import { filmCoat, type Product, type System, thinningOf, vocOf, yearsOf } from './system.ts';

const id = 'solvent-borne-paving';
const name = tr`Solvent-borne paving paint`;

const paint: Product = {
  id: 'solvent-borne-paint',
  name: tr`paving paint, solvent-borne`,
  kind: 'paint',
  carrier: 'solvent',
  thinner: 'mineral turpentine',
  ...vocOf('solvent-borne-paint', tr`paving paint, solvent-borne`, 'solvent', 420),
};

export const solventBornePaving: System = {
  id,
  name,
  primerReason: tr`A solvent-borne paint primes itself: its thinned first coat soaks in.`,
  needs: 'profile',
  ...yearsOf(id, name, 4, 10),
  plain: tr`Hard early and bears cooler days; smells strongly, and its vapour burns.`,
  coats: [
    {
      ...filmCoat(id, name, 'first', 42, 50),
      product: paint,
      thinning: thinningOf(id, name, 'first', 'mineral turpentine', 0.1, {
        note: tr`A US Army manual gives about 12.5 % reducer on concrete, which is close; thinning raises the VOC content: what the tin says goes first.`,
        choices: [
          { value: 0.1, source: commonPractice },
          { value: 0.125, source: armyCoverage },
        ],
      }),
      when: 'always',
    },
    { ...filmCoat(id, name, 'second', 42, 50), product: paint, when: 'always' },
  ],
};
