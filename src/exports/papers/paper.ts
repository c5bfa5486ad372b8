import type { Content } from 'pdfmake/interfaces';
import type { Results } from '../../results.ts';
import { tr } from '../../words/tr.ts';
import type { Desk } from '../desk.ts';
import type { Paper } from '../drawing/paper.ts';

export const PAPER_IDS = [
  'quote',
  'drawing',
  'tables',
  'order',
  'mixes',
  'days',
  'safety',
  'handover',
] as const;
export type PaperId = (typeof PAPER_IDS)[number];

/** What each kind of paper is called, and who acts on it, in the order they are put together. */
export const PAPERS_TO_CHOOSE: ReadonlyArray<{
  readonly id: PaperId;
  readonly title: string;
  readonly reader: 'customer' | 'supplier' | 'crew' | 'all';
}> = [
  { id: 'quote', title: tr`Quote`, reader: 'customer' },
  { id: 'drawing', title: tr`Drawing`, reader: 'all' },
  { id: 'tables', title: tr`Zones, edges and coats`, reader: 'all' },
  { id: 'order', title: tr`Order list`, reader: 'supplier' },
  { id: 'mixes', title: tr`Mix sheets`, reader: 'crew' },
  { id: 'days', title: tr`Day sheets`, reader: 'crew' },
  { id: 'safety', title: tr`Readiness and safety`, reader: 'all' },
  { id: 'handover', title: tr`Handover and care`, reader: 'customer' },
];

/** A job to write on, and what the writing needs. */
export interface Writing {
  readonly results: Results;
  readonly desk: Desk;
  readonly paper: Paper;
}

/** What stands on a kind of paper; empty where there is nothing to say. */
export type PaperContent = (writing: Writing) => Promise<Content[]> | Content[];
