import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Everything that must hold before a change lands; ends with one plain line that counts it. */
const STEPS: ReadonlyArray<readonly [name: string, command: string, args: readonly string[]]> = [
  ['format and lint', 'biome', ['check', '--error-on-warnings', '.']],
  ['types', 'tsc', ['-p', '.']],
  ['types of geometry, without a browser', 'tsc', ['-p', 'geometry']],
  ['who may import whom', 'depcruise', ['src', 'geometry', '--config', '.dependency-cruiser.cjs']],
  ['nothing unused', 'knip', []],
  [
    'every export of geometry is explained',
    'typedoc',
    ['--options', 'geometry/typedoc.json', '--emit', 'none'],
  ],
];

/** What tests leave lying about goes with it. */
const folder = mkdtempSync(join(tmpdir(), 'slabwright-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true, maxRetries: 3 }));

const run = (command: string, args: readonly string[]): boolean =>
  spawnSync('npx', ['--no-install', command, ...args], {
    stdio: 'inherit',
    env: { ...process.env, TMPDIR: folder },
  }).status === 0;

let passed = 0;
let failed = 0;
for (const [name, command, args] of STEPS) {
  process.stdout.write(`\n== ${name}\n`);
  if (run(command, args)) passed++;
  else failed++;
}

process.stdout.write('\n== tests\n');
const report = join(folder, 'report.json');
const green = run('vitest', [
  'run',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${report}`,
  ...process.argv.slice(2),
]);
let skipped = 0;
try {
  const counts = JSON.parse(readFileSync(report, 'utf8'));
  passed += counts.numPassedTests;
  failed += counts.numFailedTests;
  skipped = counts.numPendingTests + counts.numTodoTests;
  if (!green && counts.numFailedTests === 0) failed++;
} catch {
  failed++;
}
process.stdout.write(`\n${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}\n`);
process.exitCode = failed === 0 ? 0 : 1;
