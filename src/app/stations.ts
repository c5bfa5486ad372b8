import { tr } from '../words/tr.ts';

/** Stations of a job, in the order of the work. */
export const STATIONS = ['Site', 'Measure', 'Zones', 'Coats', 'Order', 'Days', 'Papers'] as const;
export type Station = (typeof STATIONS)[number];

export const STATION_WORDS: Readonly<Record<Station, string>> = {
  Site: tr`Site`,
  Measure: tr`Measure`,
  Zones: tr`Zones`,
  Coats: tr`Coats`,
  Order: tr`Order`,
  Days: tr`Days`,
  Papers: tr`Papers`,
};

/** How the zones are grouped in the table and told apart on the board. */
export const GROUPINGS = ['zone', 'nap', 'system', 'slab'] as const;
export type Grouping = (typeof GROUPINGS)[number];

export const GROUPING_WORDS: Readonly<Record<Grouping, string>> = {
  zone: tr`not grouped`,
  nap: tr`nap`,
  system: tr`system`,
  slab: tr`slab`,
};

/** How far the table slides up on a phone. */
export const DOCK_HEIGHTS = ['low', 'half', 'full'] as const;
export type DockHeight = (typeof DOCK_HEIGHTS)[number];
