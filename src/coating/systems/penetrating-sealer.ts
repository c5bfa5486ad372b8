import { tr } from '../../words/tr.ts';
import { type Product, type System, soakedCoat, vocOf, yearsOf } from './system.ts';

const id = 'penetrating-sealer';
const name = tr`Penetrating sealer`;

const sealer: Product = {
  id: 'penetrating-sealer',
  name: tr`penetrating sealer`,
  kind: 'sealer',
  carrier: 'water',
  thinner: 'water',
  ...vocOf('penetrating-sealer', tr`penetrating sealer`, 'water', 100),
};

export const penetratingSealer: System = {
  id,
  name,
  primerReason: tr`A sealer soaks in; a primer would keep it out.`,
  needs: 'open pores',
  ...yearsOf(id, name, 5, 10),
  plain: tr`Sheds water and leaves the concrete as it looks; no colour, no film, nothing to peel.`,
  coats: [
    { ...soakedCoat(id, name, 'first', 5), product: sealer, when: 'always' },
    { ...soakedCoat(id, name, 'second', 8), product: sealer, when: 'always' },
  ],
};
