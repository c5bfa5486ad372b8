import { applyEdit, type Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Job, type Surface } from '../../src/job/types.ts';
import { type Problem, sentence } from '../../src/problem.ts';

/** The job after some edits, each of which must be taken. */
export const edited = (job: Job, ...edits: readonly Edit[]): Job =>
  edits.reduce((j, edit) => {
    const next = applyEdit(j, edit);
    if (!next.ok) throw new Error(`${edit.type}: ${sentence(next.problem)}`);
    return next.value;
  }, job);

/** What is wrong with an edit; null where it is taken. */
export const refusal = (job: Job, edit: Edit): Problem | null => {
  const made = applyEdit(job, edit);
  return made.ok ? null : made.problem;
};

/** A slab of width by height metres beside the last one: x metres to the right. */
export const slabEdit = (
  id: string,
  [x, width, height]: readonly [number, number, number],
  surface: Partial<Surface> = {},
): Edit => ({
  type: 'add-slab',
  args: {
    id,
    name: id.toUpperCase(),
    sheetId: 'g',
    corners: [
      [x, 0],
      [x + width, 0],
      [x + width, height],
      [x, height],
    ].map(([u, v], i) => ({ id: `${id}${i}`, x: u!, y: v!, via: null })),
    surface: { ...DEFAULT_SURFACE, ...surface },
  },
});

/** A grid in metres with one slab of 10 m by 8 m on it. */
export const oneSlab = (surface: Partial<Surface> = {}): Job =>
  edited(
    emptyJob('j', 'Job'),
    { type: 'add-sheet', args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } } },
    slabEdit('a', [0, 10, 8], surface),
  );

/** Answers questions about a slab. */
export const answered = (job: Job, found: Readonly<Record<string, string | number>>, slabId = 'a'): Job =>
  edited(
    job,
    ...Object.entries(found).map(
      ([question, answer]): Edit => ({ type: 'answer', args: { slabId, question, answer } }),
    ),
  );

/** What is found on sound bare concrete. */
export const SOUND = {
  age: 2000,
  'water-drop': 'soaks-in',
  'tape-bare': 'clean',
  'moisture-sheet': 'dry',
  'ph-surface': 7.5,
  'ph-water': 7,
  oil: 'none',
  cracks: 'none',
  coldest: 12,
  hottest: 30,
} as const;
