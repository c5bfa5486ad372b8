import { tr } from '../../words/tr.ts';
import type { Bay, ColdLap } from './rollout.ts';

/** Who rolls a bay. */
export const peopleWords = ({ people, late }: Bay): string =>
  late ? tr`two, and still late` : people === 2 ? tr`one cuts in, one rolls` : tr`one`;

/** What is said of a rushed order. */
export const rushedWords = (): string =>
  tr`The edge sets before a bay is rolled: take cooler hours or shade it, roll without a pause, and end at lines that hide a lap.`;

/** More edges than this nobody reads. */
const MOST_LAPS = 8;

/** The cold laps that waited longest, and how many more there are. */
export function worstLaps(laps: readonly ColdLap[]): {
  readonly worst: readonly ColdLap[];
  readonly more: number;
} {
  const worst = [...laps].sort((a, b) => b.ageMin - a.ageMin).slice(0, MOST_LAPS);
  return { worst, more: laps.length - worst.length };
}
