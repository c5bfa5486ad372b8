import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { MAX_PIXELS, readImageHeader } from '../../src/imports/image-header.ts';
import { sentence } from '../../src/problem.ts';
import { beside } from '../shared-material.ts';

const picture = () => sharp({ create: { width: 70, height: 40, channels: 3, background: '#abc' } });
const said = (bytes: Uint8Array): string => {
  const header = readImageHeader(bytes, 'plan.png');
  return header.ok
    ? `${header.value.type} ${header.value.widthPx} × ${header.value.heightPx}`
    : sentence(header.problem);
};

test.each([
  ['image/png', () => picture().png().toBuffer()],
  ['image/jpeg', () => picture().jpeg().toBuffer()],
  ['image/webp', () => picture().webp().toBuffer()],
  ['image/webp', () => picture().webp({ lossless: true }).toBuffer()],
])('%s as an independent library writes it; cut short it is broken', async (type, make) => {
  const bytes = await make();
  expect(said(bytes)).toBe(`${type} 70 × 40`);
  for (const share of [0.4, 0.9]) {
    expect(said(bytes.subarray(0, Math.floor(bytes.length * share)))).toMatch(
      /breaks off or is damaged|not a PNG/,
    );
  }
});

test('a claim of 60,000 × 60,000 pixels is refused before decoding', async () => {
  const bytes = Buffer.from(await picture().png().toBuffer());
  bytes.writeUInt32BE(60000, 16);
  bytes.writeUInt32BE(60000, 20);
  expect(said(bytes)).toContain('claims 60000 × 60000 pixels');
});

test('something else is not a picture', () => {
  for (const text of ['', 'hello', '%PDF-1.7', '\x89PNG'])
    expect(said(Buffer.from(text, 'latin1'))).toContain('is not a PNG');
});

// Sizes as an independent program reads them: ../shared/material/index.json (Pillow). READ. The HEIC by libheif itself.
test.each([
  ['april__33369213973_9d9bb4cc96_c.jpg', 'image/jpeg 799 × 533'],
  ['mex__left01.jpg', 'image/jpeg 640 × 480'],
  ['sharp__2569067123_aca715a2ee_o.jpg', 'image/jpeg 2725 × 2225'],
  ['skim__gravel.png', 'image/png 512 × 512'],
  ['sharp__16-bit-grey-alpha.png', 'image/png 109 × 96'],
  ['pil__broken.png', 'breaks off'],
  ['sharp__65536-uint32-limit.png', 'claims 65536 × 65536 pixels'],
  ['skim__truncated.jpg', 'breaks off'],
  ['heif__example.heic', 'image/heic 1280 × 854'],
  ['heif__github_15.heic', 'is not a PNG'],
])('%s', (name, expected) => {
  const path = beside(`material/photo/${name}`);
  if (path) expect(said(readFileSync(path))).toContain(expected);
  expect(MAX_PIXELS).toBe(1e8);
});
