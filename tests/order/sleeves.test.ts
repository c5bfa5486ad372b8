import { expect, test } from 'vitest';
import type { Job } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { answered, edited, oneSlab, SOUND, slabEdit } from '../coating/scene.ts';

// Two textures whose sleeves differ by a millimetre: bought apart by millimetres, together where both are three quarters of an inch.
const two = (units: 'metric' | 'us'): Job =>
  answered(
    answered(
      edited(
        oneSlab({ texture: 'heavy-broom' }),
        slabEdit('b', [20, 10, 8], { texture: 'light-broom' }),
        { type: 'set-value', args: { key: 'texture.heavy-broom.nap', value: 19 } },
        { type: 'set-value', args: { key: 'texture.light-broom.nap', value: 18 } },
        { type: 'change-settings', args: { units } },
      ),
      SOUND,
    ),
    SOUND,
    'b',
  );
const sleeves = (job: Job) =>
  results(job)
    .order.sundries.filter((s) => s.key === 'sleeve')
    .map((s) => [s.name, s.quantity.value] as const);

test('sleeves are bought by the nap as it is asked for, each name once', () => {
  const metric = sleeves(two('metric'));
  expect(metric.map(([name]) => name)).toEqual(['roller sleeves, 18 mm nap', 'roller sleeves, 19 mm nap']);
  const us = sleeves(two('us'));
  expect(us.map(([name]) => name)).toEqual(['roller sleeves, 3/4 in nap']);
  expect(us[0]![1]).toBe(metric.reduce((sum, [, n]) => sum + n, 0));
});
