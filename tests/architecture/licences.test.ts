import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const { packages } = JSON.parse(
  readFileSync(new URL('../../package-lock.json', import.meta.url), 'utf8'),
) as {
  packages: Record<string, { license?: string; version?: string; dev?: boolean; link?: boolean }>;
};

/** SPDX names of licences that allow what is done here: passing the library on, built into the page, with its notice. */
const ALLOWED = new Set([
  'MIT',
  'ISC',
  '0BSD',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  'BlueOak-1.0.0',
  'Unlicense',
  'MIT/X11',
  '(MIT OR GPL-3.0-or-later)',
  '(MIT AND Zlib)',
  '(MIT OR CC0-1.0)',
]);

/** What names another licence or none, and why it may stay; read in the packages themselves. */
const ANSWERED: Readonly<Record<string, string>> = {
  'libheif-js':
    'LGPL-3.0: passed on unchanged as a file of its own, which anybody can put another in place of',
  'dejavu-fonts-ttf': 'licence of the Bitstream Vera fonts: may be passed on and embedded with its notice',
  suncalc: 'two-clause BSD by the LICENSE file of the package',
  'png-js': 'MIT by the LICENSE file of the package',
  buffers: 'names no licence; the ZIP stream reader of exceljs needs it, which is not built into the page',
};

const shipped = Object.entries(packages).filter(([path, p]) => path !== '' && !p.dev && !p.link);

test('every library that is passed on has a licence that allows it, or an answer', () => {
  const open = shipped
    .map(([path, p]) => ({ name: path.replace(/^.*node_modules\//, ''), licence: p.license ?? 'none named' }))
    .filter(({ name, licence }) => !ALLOWED.has(licence) && !Object.hasOwn(ANSWERED, name));
  expect(open).toEqual([]);
  expect(shipped.length).toBeGreaterThan(100);
});

test('no answer outlives its library, and every version is pinned', () => {
  for (const name of Object.keys(ANSWERED))
    expect(Object.hasOwn(packages, `node_modules/${name}`), name).toBe(true);
  const own = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  for (const [name, version] of Object.entries({ ...own.dependencies, ...own.devDependencies }))
    expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
});
