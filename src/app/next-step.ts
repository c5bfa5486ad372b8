import type { Results } from '../results.ts';
import { tr } from '../words/tr.ts';
import { addGrid } from './files.ts';
import { showQuestions } from './places.ts';
import type { Station } from './stations.ts';
import type { AppState } from './store.ts';
import { openSheet, store, takeTool } from './store.ts';

interface Action {
  readonly words: string;
  readonly run: () => void;
}

/** What a job wants next, and what begins it. */
export interface NextStep {
  readonly words: string;
  readonly action: Action | null;
  /** Another way to the same. */
  readonly or?: Action;
  /** Where it is done, for steps that are not begun on the board. */
  readonly station?: Station;
  /** Codes of remarks that say no more than this. */
  readonly says?: readonly string[];
}

const go = (station: Station) => () => store.setState({ station });
const take = (tool: string, sheetId: string) => () => {
  openSheet(sheetId);
  takeTool(tool);
};

/** The first thing that is missing on the way from an empty job to an offer; null once nothing is. */
export function nextStep({
  results,
  sheetId,
  station,
}: Pick<AppState, 'results' | 'sheetId' | 'station'>): NextStep | null {
  const { job, takeoff, coating } = results;
  const sheets = Object.values(job.sheets);
  const sheet = (sheetId && job.sheets[sheetId]) || sheets[0];
  if (!sheet)
    return {
      words: tr`Open a photo or plan to trace over, or begin on a blank grid.`,
      action: { words: tr`Begin on a grid`, run: addGrid },
      says: ['job/empty'],
    };
  const unscaled = sheets.find((s) => !s.fit);
  const photo = unscaled?.picture && unscaled.picture.page === undefined && !unscaled.picture.drawn;
  if (unscaled)
    return {
      words: tr`Give “${unscaled.name}” its scale: mark a line whose length you know.${photo ? tr` A photo taken at an angle is straightened instead.` : ''}`,
      action: { words: tr`Begin`, run: take('scale', unscaled.id) },
      ...(photo ? { or: { words: tr`Straighten it`, run: take('marks', unscaled.id) } } : {}),
      says: ['job/empty'],
    };
  if (Object.keys(job.slabs).length === 0)
    return {
      words: tr`Trace the first slab: tap its corners one after the other.`,
      action: { words: tr`Begin`, run: take('slab', sheet.id) },
      says: ['job/empty'],
    };
  if (!coating.zones.some((z) => z.coats.length > 0) && takeoff.zones.length > 0)
    return {
      words: tr`Choose a coating system for each zone.`,
      action: { words: tr`Go there`, run: go('Zones') },
      station: 'Zones',
    };
  const unasked = results.readiness.filter(
    (r) => Object.keys(job.slabs[r.slabId]?.answers ?? {}).length === 0,
  );
  if (unasked.length > 0)
    return {
      words: tr`Say how the concrete of ${some(unasked.map((r) => `“${r.name}”`))} is.`,
      action: { words: tr`Go there`, run: () => showQuestions(unasked[0]!.slabId) },
      says: ['readiness/unasked'],
    };
  // Orders and offers are worked out where they are looked at, not with every stroke on the board.
  return station === 'Order' || station === 'Papers' ? orderStep(results) : null;
}

/** The first few names of a list, and how many more there are. */
const some = (names: readonly string[]): string =>
  names.length > 4 ? tr`${names.slice(0, 3).join(', ')} and ${names.length - 3} more` : names.join(', ');

/** What the offer wants; what keeps the order back is said among the remarks. */
function orderStep({ job, order, quote }: Results): NextStep | null {
  if (order.blocks.length > 0) return null;
  if (quote.unpriced.length > 0) {
    return {
      words: tr`Enter the prices that are missing: ${some(quote.unpriced)}.`,
      action: { words: tr`Go there`, run: go('Order') },
      station: 'Order',
    };
  }
  if (!job.customer?.name)
    return {
      words: tr`Say who the offer is for, and write the papers.`,
      action: { words: tr`Go there`, run: go('Papers') },
      station: 'Papers',
    };
  return null;
}
