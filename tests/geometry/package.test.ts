import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';

test('the subpath slabwright/geometry works from Node alone, without a browser', () => {
  execFileSync('npm', ['run', '--silent', 'build:geometry'], { stdio: 'pipe' });
  const program = `
    import { circleRing, partition } from 'slabwright/geometry';
    if (typeof document !== 'undefined') throw new Error('there is a browser');
    const square = [{ x: 0, y: 0 }, { x: 4, y: 0 }, { x: 4, y: 3 }, { x: 0, y: 3 }];
    const made = partition({ slabs: [square], cuts: [], voids: [circleRing({ x: 2, y: 1.5 }, 0.5)] });
    console.log(made.value.zones[0].netArea);
  `;
  const printed = execFileSync(process.execPath, ['--input-type=module', '-e', program], {
    encoding: 'utf8',
  });
  expect(Number(printed)).toBeCloseTo(12 - Math.PI / 4, 9);
}, 60_000);
