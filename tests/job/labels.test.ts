import { expect, test } from 'vitest';
import { EDIT_TYPES, type Edit, editLabel } from '../../src/job/edits/index.ts';

const labelOf = (type: Edit['type'], args: object = {}) => editLabel({ type, args } as Edit);

test('every kind of step is called something of its own, which is what going back names', () => {
  const named: ReadonlyArray<Edit['type']> = ['add-sheet', 'add-slab', 'set-tape', 'add-void'];
  const plain = EDIT_TYPES.filter((type) => !named.includes(type));
  const labels = plain.map((type) => labelOf(type));
  for (const label of labels) expect(label).toMatch(/^[A-Z][a-z]+ \S/);
  expect(new Set(labels).size).toBe(plain.length);
});

test.each<readonly [string, Edit['type'], object]>([
  ['Add sheet Plan', 'add-sheet', { name: 'Plan' }],
  ['Trace Drive', 'add-slab', { name: 'Drive' }],
  ['Note a taped distance', 'set-tape', { kind: 'distance' }],
  ['Note a right angle', 'set-tape', { kind: 'square' }],
  ['Take out a post', 'add-void', { kind: 'post' }],
  ['Take out a void', 'add-void', { kind: 'other' }],
  ['Bend a side', 'update-side', { via: null, exit: true }],
  ['Mark a way out', 'update-side', { exit: false, faceUpM: 1 }],
  ['Give a side its face', 'update-side', { faceUpM: 0 }],
  ['Say what stands beyond a side', 'update-side', { edge: 'wall' }],
  ['Do not coat after all', 'coat-anyway', { reason: null }],
  ['Coat in spite of the answers', 'coat-anyway', { reason: 'owner asks' }],
  ['Take the weather', 'set-weather', { weather: {} }],
  ['Drop the weather', 'set-weather', { weather: null }],
])('%s', (words, type, args) => {
  expect(labelOf(type, args)).toBe(words);
});
