import { expect, test } from 'vitest';
import { applyMatrix, distort, type Lens, type Matrix3, undistort } from '../../geometry/index.ts';
import { copyFor } from '../../src/photos/index.ts';
import { fill } from '../../src/photos/warp.ts';

/** A photo whose colours rise evenly across and down, so that the value between pixels is known exactly. */
const ramp = (width: number, height: number, across: number, down: number) => {
  const data = new Uint8ClampedArray(width * height * 4);
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const at = (j * width + i) * 4;
      data[at] = across * (i + 0.5);
      data[at + 1] = down * (j + 0.5);
      data[at + 2] = 40;
      data[at + 3] = 255;
    }
  }
  return { width, height, data };
};
const empty = (width: number, height: number) => ({
  width,
  height,
  data: new Uint8ClampedArray(width * height * 4),
});

// Interpolating between the four pixels around a place gives back any plane exactly (identity of bilinear
// interpolation), here to the rounding of one byte, twice.
const TILTED: Matrix3 = [0.9, 0.2, 6, -0.15, 0.8, 12, 0.001, 0.0015, 1];
const BARREL: Lens = { centre: { x: 50, y: 45 }, radius: 67, k: 0.08 };

test.each([
  ['seen from the side', TILTED, null, 1],
  ['taken with a bending lens', TILTED, BARREL, 1],
  ['of which a copy half as large is at hand', TILTED, null, 2],
] as const)('a straight picture of a photo %s shows each place in its colour', (_, toPhoto, lens, share) => {
  const photo = ramp(100 / share, 90 / share, 2 * share, 2.5 * share);
  const straight = empty(60, 50);
  fill(straight, photo, { width: 60, height: 50, toPhoto, lens, photoWidthPx: 100 });
  let seen = 0;
  for (let v = 0; v < 50; v++) {
    for (let u = 0; u < 60; u++) {
      const p = applyMatrix(toPhoto, { x: u + 0.5, y: v + 0.5 });
      const q = lens ? distort(lens, p) : p;
      const [red, green, blue, alpha] = straight.data.subarray((v * 60 + u) * 4);
      expect(alpha).toBe(255);
      // Ground that the photo does not show is grey; half a pixel in from its edge there are four to mix.
      const half = share / 2;
      if (q.x < half || q.y < half || q.x >= 100 - half || q.y >= 90 - half) {
        expect([red, green, blue]).toEqual([238, 238, 238]);
        continue;
      }
      seen++;
      const told = { x: red! / 2, y: green! / 2.5 };
      const there = lens ? undistort(lens, told) : told;
      expect(Math.hypot(there.x - p.x, there.y - p.y)).toBeLessThan(0.75);
      expect(blue).toBe(40);
    }
  }
  expect(seen).toBeGreaterThan(2000);
});

test('the copy that is drawn is never coarser than the screen where a finer one is there', () => {
  const copies = [4800, 2400, 1200, 600].map((width) => ({ width }));
  expect(copyFor(copies, 9000).width).toBe(4800);
  expect(copyFor(copies, 2401).width).toBe(4800);
  expect(copyFor(copies, 2400).width).toBe(2400);
  expect(copyFor(copies, 1000).width).toBe(1200);
  expect(copyFor(copies, 10).width).toBe(600);
});
