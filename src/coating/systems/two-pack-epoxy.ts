import { tr } from '../../words/tr.ts';
import { valuesOf } from '../../working/default-value.ts';
import { filmCoat, type Product, type System, vocOf, yearsOf } from './system.ts';

const id = 'two-pack-epoxy';
const name = tr`Two-pack epoxy under a UV-stable finish`;

const twoPack = (productId: string, productName: string, parts: number, minutes: number) => {
  const value = valuesOf(productName);
  const note = tr`Read it off the tin or its data sheet.`;
  return {
    ratio: value(
      `product.${productId}.ratio`,
      tr`parts of base to one part of hardener, by volume`,
      ['m', '1'],
      parts,
      [0.25, 20],
      { note },
    ),
    potLife: value(
      `product.${productId}.pot-life`,
      tr`time a mix can be worked at 20 °C`,
      ['t', 'min'],
      minutes,
      [2, 600],
      { note: tr`${note} Every 10 °C more halve it.` },
    ),
  };
};

const epoxy: Product = {
  id: 'two-pack-epoxy',
  name: tr`two-pack epoxy`,
  kind: 'two-pack',
  carrier: 'solvent',
  thinner: 'epoxy thinner',
  ...vocOf('two-pack-epoxy', tr`two-pack epoxy`, 'solvent', 250),
  twoPack: twoPack('two-pack-epoxy', tr`two-pack epoxy`, 4, 40),
};

const urethane: Product = {
  id: 'aliphatic-urethane',
  name: tr`two-pack aliphatic urethane, UV-stable`,
  kind: 'two-pack',
  carrier: 'solvent',
  thinner: 'urethane thinner',
  ...vocOf('aliphatic-urethane', tr`two-pack aliphatic urethane, UV-stable`, 'solvent', 340),
  twoPack: twoPack('aliphatic-urethane', tr`two-pack aliphatic urethane, UV-stable`, 4, 90),
};

export const twoPackEpoxy: System = {
  id,
  name,
  primerReason: tr`Its first coat of epoxy is its own primer. Epoxy chalks in the sun, so an aliphatic urethane goes on top (UFC 3-190-06, 16 January 2004, 4.4.2.4).`,
  needs: 'profile',
  ...yearsOf(id, name, 7, 15),
  plain: tr`The hardest of them and the one that bears tyres best; mixed by the batch, and what is mixed has to go down.`,
  coats: [
    { ...filmCoat(id, name, 'first', 60, 75), product: epoxy, when: 'always' },
    { ...filmCoat(id, name, 'finish', 55, 50), product: urethane, when: 'always' },
  ],
};
