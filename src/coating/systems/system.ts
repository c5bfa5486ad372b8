import type { Id } from '../../job/types.ts';
import type { DefaultValue } from '../../working/default-value.ts';

/** Something that is bought by volume. Generic: nobody's product. */
export interface Product {
  readonly id: Id;
  readonly name: string;
  readonly carrier: 'water' | 'solvent';
  readonly thinner: string;
}

export type CoatRole = 'primer' | 'first' | 'second';

/** A coat as its system means it. */
export interface SystemCoat {
  readonly role: CoatRole;
  readonly product: Product;
  readonly solids: DefaultValue;
  readonly film: DefaultValue;
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
  /** Why the primer is there, in one line. */
  readonly primerReason: string;
}

/** The values a coat starts from. */
export function coatValues(
  systemId: Id,
  systemName: string,
  role: CoatRole,
  solids: number,
  filmUm: number,
): Pick<SystemCoat, 'solids' | 'film'> {
  const common = { group: systemName, source: { kind: 'common practice' } } as const;
  return {
    solids: {
      ...common,
      key: `system.${systemId}.${role}.solids`,
      name: `volume solids, ${COAT_NAMES[role]}`,
      symbol: 'VS',
      unit: '%',
      value: solids,
      low: 1,
      high: 100,
      note: 'Read it off the tin or its data sheet.',
    },
    film: {
      ...common,
      key: `system.${systemId}.${role}.film`,
      name: `dry film, ${COAT_NAMES[role]}`,
      symbol: 'D',
      unit: 'µm',
      value: filmUm,
      low: 1,
      high: 2000,
    },
  };
}

export const COAT_NAMES: Readonly<Record<CoatRole, string>> = {
  primer: 'primer',
  first: 'first coat',
  second: 'second coat',
};
