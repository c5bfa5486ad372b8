import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import rooms from './rooms.json';

const files = (folder: string): string[] =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? files(path) : [path];
  });
const source = [...files('src'), ...files('geometry')].filter((f) => /\.tsx?$/.test(f));
const read = (path: string) => readFileSync(path, 'utf8');

/** Longest file allowed; guard the maximum, not the mean. */
const LONGEST = 420;

test('every source file lies in a room of the table', () => {
  const places = Object.keys(rooms);
  for (const file of source)
    expect(
      places.some((p) => file === p || file.startsWith(`${p}/`)),
      file,
    ).toBe(true);
});

test('no file grows past what can be read in one sitting', () => {
  for (const file of source) expect(read(file).split('\n').length, file).toBeLessThanOrEqual(LONGEST);
});

test.each([
  [
    'src/board/tools',
    ['index.ts', 'tool.ts', 'handling.ts', 'several.ts', 'two-taps.ts', 'path.ts', 'outline.ts'],
  ],
  ['src/job/checks', ['index.ts', 'check.ts']],
  ['src/job/edits', ['index.ts', 'edit.ts']],
  ['src/coating/systems', ['index.ts', 'system.ts']],
  ['src/imports/weather', ['index.ts', 'rows.ts']],
  [
    'src/exports',
    [
      'index.ts',
      'export.ts',
      'sheet-names.ts',
      'table.ts',
      'takeoff-json.ts',
      'coating-json.ts',
      'order-json.ts',
      'quote-json.ts',
      'days-json.ts',
      'quantity-json.ts',
      'desk.ts',
    ],
  ],
])('every file of %s is in its registry', (folder, shared) => {
  const registry = read(`${folder}/index.ts`);
  for (const name of readdirSync(folder).filter((n) => n.endsWith('.ts'))) {
    if (!shared.includes(name)) expect(registry, `${folder}/${name}`).toContain(`'./${name}'`);
  }
});

test('the contributors’ guide names every room', () => {
  const guide = read('DEVELOPERS.md');
  for (const room of Object.keys(rooms)) expect(guide, room).toContain(room);
});

test('geometry is free of the browser and of us', () => {
  for (const file of source.filter((f) => f.startsWith('geometry/'))) {
    expect(read(file), file).not.toMatch(/from '\.\.\/|\bdocument\b|\bwindow\b/);
  }
});
