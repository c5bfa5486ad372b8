import type { Id } from '../../job/types.ts';
import { tr } from '../../words/tr.ts';
import { type DefaultValue, valuesOf } from '../../working/default-value.ts';

/** What products are thinned with; prices that were entered go by these too. */
export type Thinner = 'water' | 'mineral turpentine' | 'epoxy thinner' | 'urethane thinner';

export const THINNER_NAMES: Readonly<Record<Thinner, string>> = {
  water: tr`water`,
  'mineral turpentine': tr`mineral turpentine`,
  'epoxy thinner': tr`epoxy thinner`,
  'urethane thinner': tr`urethane thinner`,
};

/** Something that is bought by volume. Generic: nobody's product. */
export interface Product {
  readonly id: Id;
  readonly name: string;
  readonly kind: 'primer' | 'paint' | 'sealer' | 'two-pack';
  readonly carrier: 'water' | 'solvent';
  readonly thinner: Thinner;
  /** Organic vapour in it as it comes, g/L, and in a litre of its thinner. */
  readonly voc: DefaultValue;
  readonly thinnerVoc: DefaultValue;
  /** Two packs: parts of base to one of hardener by volume, and how long a mix can be worked. */
  readonly twoPack?: { readonly ratio: DefaultValue; readonly potLife: DefaultValue };
}

export const COAT_ROLES = ['primer', 'first', 'second', 'finish'] as const;
export type CoatRole = (typeof COAT_ROLES)[number];

/** A coat as its system means it. */
export interface SystemCoat {
  readonly role: CoatRole;
  readonly product: Product;
  /** Volume solids and dry film; null where it leaves no film and the rate is always stated. */
  readonly film: { readonly solids: DefaultValue; readonly dry: DefaultValue } | null;
  /** A spreading rate as stated on the tin; 0 leaves it to solids and film. */
  readonly rate: DefaultValue;
  /** The share of thinner on bare concrete; absent where a coat always goes on neat. */
  readonly thinning?: DefaultValue;
  /** When the coat is part of the system at all. */
  readonly when: 'always' | 'under-vehicles';
}

/** A coating system: coats in order, with the reasons for what it asks. One file each. */
export interface System {
  readonly id: Id;
  readonly name: string;
  readonly coats: readonly SystemCoat[];
  /** Why there is a primer, or none, in one line. */
  readonly primerReason: string;
  /** What a film on top needs underneath; a sealer goes into the concrete and needs it open. */
  readonly needs: 'profile' | 'open pores';
  /** Years outdoors until it wants another coat, and until it has to come off. */
  readonly repaint: DefaultValue;
  readonly life: DefaultValue;
  /** What it is like to live with, in plain words. */
  readonly plain: string;
}

export const COAT_NAMES: Readonly<Record<CoatRole, string>> = {
  primer: tr`primer`,
  first: tr`first coat`,
  second: tr`second coat`,
  finish: tr`finish coat`,
};

const READ_TIN = tr`Read it off the tin or its data sheet.`;

/** A coat that leaves a film: volume solids in %, dry film in µm. */
export function filmCoat(
  systemId: Id,
  systemName: string,
  role: CoatRole,
  solids: number,
  dryUm: number,
): Pick<SystemCoat, 'role' | 'film' | 'rate'> {
  const value = valuesOf(systemName);
  const key = `system.${systemId}.${role}`;
  const coat = COAT_NAMES[role];
  return {
    role,
    film: {
      solids: value(`${key}.solids`, tr`volume solids, ${coat}`, ['VS', '%'], solids, [1, 100], {
        note: READ_TIN,
      }),
      dry: value(`${key}.film`, tr`dry film, ${coat}`, ['D', 'µm'], dryUm, [1, 2000]),
    },
    rate: value(`${key}.rate`, tr`spreading rate as stated, ${coat}`, ['S', 'm²/L'], 0, [0, 100], {
      note: tr`0: worked out from volume solids and dry film.`,
    }),
  };
}

/** A coat that soaks in and leaves no film: only a stated rate, m²/L. */
export function soakedCoat(
  systemId: Id,
  systemName: string,
  role: CoatRole,
  rate: number,
): Pick<SystemCoat, 'role' | 'film' | 'rate'> {
  return {
    role,
    film: null,
    rate: valuesOf(systemName)(
      `system.${systemId}.${role}.rate`,
      tr`spreading rate, ${COAT_NAMES[role]}`,
      ['S', 'm²/L'],
      rate,
      [0.5, 50],
      { note: tr`Dense concrete takes less, open concrete more: wet a square metre and see.` },
    ),
  };
}

/** Thinner in a first coat that goes straight onto bare concrete, as a share. */
export const thinningOf = (
  systemId: Id,
  systemName: string,
  role: CoatRole,
  thinner: Thinner,
  share: number,
  more: Pick<DefaultValue, 'note' | 'choices'>,
): DefaultValue =>
  valuesOf(systemName)(
    `system.${systemId}.${role}.thinning`,
    tr`${THINNER_NAMES[thinner]} in the ${COAT_NAMES[role]} on bare concrete`,
    ['x', '1'],
    share,
    [0, 0.5],
    more,
  );

/** Years until another coat is wanted and until it has to come off. */
export function yearsOf(
  systemId: Id,
  systemName: string,
  repaint: number,
  life: number,
): Pick<System, 'repaint' | 'life'> {
  const value = valuesOf(systemName);
  const note = tr`Sun, tyres, winters and preparation move it by half either way; nobody can promise it.`;
  return {
    repaint: value(
      `system.${systemId}.repaint`,
      tr`outdoors until it wants another coat`,
      ['Y', 'a'],
      repaint,
      [0.5, 50],
      { note },
    ),
    life: value(
      `system.${systemId}.life`,
      tr`outdoors until it has to come off`,
      ['Y', 'a'],
      life,
      [0.5, 80],
      {
        note,
      },
    ),
  };
}

/** Organic vapour of a product and of its thinner, g/L. */
export function vocOf(
  productId: Id,
  productName: string,
  carrier: Product['carrier'],
  gramsPerL: number,
): Pick<Product, 'voc' | 'thinnerVoc'> {
  const value = valuesOf(productName);
  return {
    voc: value(`product.${productId}.voc`, tr`VOC as it comes`, ['V', 'g/L'], gramsPerL, [0, 1000], {
      note: READ_TIN,
    }),
    thinnerVoc: value(
      `product.${productId}.thinner-voc`,
      tr`VOC of the thinner`,
      ['r', 'g/L'],
      carrier === 'water' ? 0 : 780,
      [0, 1200],
      { note: carrier === 'water' ? tr`Water has none.` : tr`All of it: the density of the thinner.` },
    ),
  };
}

/** Every value of a system that a user may replace. */
export const systemValues = (s: System): DefaultValue[] => [
  ...s.coats.flatMap((c) => [
    ...(c.film ? [c.film.solids, c.film.dry] : []),
    c.rate,
    ...(c.thinning ? [c.thinning] : []),
  ]),
  s.repaint,
  s.life,
];

/** Every value of a product that a user may replace. */
export const productValues = (p: Product): DefaultValue[] => [
  p.voc,
  p.thinnerVoc,
  ...(p.twoPack ? [p.twoPack.ratio, p.twoPack.potLife] : []),
];
