import type { Condition, Id, Job } from '../job/types.ts';
import type { Source } from '../working/source.ts';

/** Coat; test first; coat after something is done; do not coat. */
export type Outcome = 'coat' | 'test' | 'after' | 'refuse';

export type Answer = string | number | undefined;

/** The slab a question is asked of. */
export interface Asked {
  readonly job: Job;
  readonly conditions: ReadonlySet<Condition>;
  readonly answer: (question: Id) => Answer;
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
  readonly judge: (
    answer: Answer,
    slab: Asked,
  ) => { readonly outcome: Outcome; readonly sentence: string } | null;
}
