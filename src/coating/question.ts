import type { Condition, Id, Job } from '../job/types.ts';
import type { Source } from '../working/source.ts';

/** Coat; test first; coat after something is done; do not coat. */
export type Outcome = 'coat' | 'test' | 'after' | 'refuse';

export type Answer = string | number | undefined;

/** The slab a question is asked of. */
export interface Asked {
  readonly job: Job;
  readonly conditions: ReadonlySet<Condition>;
  /** What the coats that are to go on it are carried in. */
  readonly carriers: ReadonlySet<'water' | 'solvent'>;
  readonly answer: (question: Id) => Answer;
}

/** What an answer means; final where no reason in writing lets it pass. */
export interface Judgement {
  readonly outcome: Outcome;
  readonly sentence: string;
  readonly final?: true;
}

/** Something to find out on site, and what each answer means. */
export interface Question {
  readonly id: Id;
  readonly words: string;
  /** How to find out. */
  readonly how: string;
  readonly source: Source;
  readonly asks:
    | { readonly kind: 'choice'; readonly options: ReadonlyArray<readonly [value: string, words: string]> }
    | { readonly kind: 'number'; readonly unit: string; readonly low: number; readonly high: number };
  /** Whether it matters for concrete like this. */
  readonly applies: (slab: Asked) => boolean;
  /** What the answer, or the lack of one, means; null where nothing stands against coating. */
  readonly judge: (answer: Answer, slab: Asked) => Judgement | null;
}

/** How the answers are worded: test first, coat after, do not coat, and no reason lets it pass. */
export const test = (sentence: string) => ({ outcome: 'test', sentence }) as const;
export const after = (sentence: string) => ({ outcome: 'after', sentence }) as const;
export const refuse = (sentence: string) => ({ outcome: 'refuse', sentence }) as const;

export const final = (sentence: string) => ({ outcome: 'refuse', sentence, final: true }) as const;

export const memory = (of: string): Source => ({ kind: 'from memory', of });
export const always = () => true;
export const anyBare = ({ conditions }: Asked) => [...conditions].some((c) => c !== 'painted');
export const has =
  (...wanted: readonly Condition[]) =>
  ({ conditions }: Asked) =>
    wanted.some((c) => conditions.has(c));
