import { expect, test } from 'vitest';
import { remarksOn } from '../../src/job/checks/index.ts';
import type { Fit, Job } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import type { FitCheck, NoFit, SolvedFit, Takeoff, TapeFigure } from '../../src/takeoff/zone.ts';
import { edited, oneSlab } from '../coating/scene.ts';

// What is said of a sheet's way to the ground and of tapes, on the case it is for and just beside it.

const JOB = oneSlab();
const TAKEOFF = results(JOB).takeoff;
const held = (fit: Fit | null): Job => ({ ...JOB, sheets: { g: { ...JOB.sheets.g!, fit } } });
const said = (job: Job, change: Partial<Takeoff>) => remarksOn(job, { ...TAKEOFF, ...change });
const scale = (stretched?: boolean): Fit => ({
  kind: 'scale',
  lengths: [{ a: { x: 0, y: 0 }, b: { x: 1, y: 0 }, lengthM: 1 }],
  reach: null,
  ...(stretched === undefined ? {} : { stretched }),
});

test.each<readonly [NoFit, Fit | null, string]>([
  [{ kind: 'none' }, null, 'The sheet “Grid” has no scale yet'],
  [
    { kind: 'none' },
    { kind: 'straightened', sheetId: 'h', toPhoto: [1, 0, 0, 0, 1, 0, 0, 0, 1], lens: null },
    'The photo that “Grid” was made from is not straightened any more',
  ],
  [{ kind: 'unusable' }, scale(), 'What is known of “Grid” gives no scale'],
  [{ kind: 'unusable' }, scale(false), 'What is known of “Grid” gives no scale'],
  [{ kind: 'unusable' }, scale(true), 'The known lengths on “Grid” do not show how it is stretched'],
  [{ kind: 'unusable' }, { kind: 'metric' }, 'What is known of “Grid” gives no scale'],
  [
    { kind: 'too-few-marks', missing: 2 },
    null,
    'needs four marks on the ground to be straightened: add 2 more',
  ],
  [{ kind: 'marks-in-line' }, null, 'The marks on “Grid” lie in a line'],
  [{ kind: 'marks-mirrored' }, null, 'run the other way round than the photo shows'],
  [{ kind: 'mark-without-place', mark: 3 }, null, 'Mark 3 on “Grid” has no place on the ground'],
  [{ kind: 'marks-loose', a: 1, b: 3 }, null, 'measure from mark 1 to mark 3 next'],
])('without a way to the ground it is said why: %j', (why, fit, words) => {
  const [found, ...more] = said(held(fit), { sheets: [{ id: 'g', fit: why }] });
  expect(found).toMatchObject({ code: 'sheet/no-scale', severity: 'stop', where: 'g', fixes: [] });
  expect(found!.sentence).toContain(words);
  expect(more).toEqual([]);
});

test('of a sheet that is gone, or has its way, nothing is said', () => {
  expect(said(JOB, { sheets: [{ id: 'gone', fit: { kind: 'none' } }] })).toEqual([]);
  expect(said(JOB, {})).toEqual([]);
});

const check = (name: string, change: Partial<FitCheck> = {}): FitCheck => ({
  name,
  knownM: 2,
  readM: 2.5,
  offM: 0.5,
  standardised: 5,
  suspect: true,
  ...change,
});
const solved = (change: Partial<SolvedFit>): Partial<Takeoff> => {
  const fit = TAKEOFF.sheets[0]!.fit as SolvedFit;
  return { sheets: [{ id: 'g', fit: { ...fit, ...change } }] };
};

test('one thing known that cannot be right is named with what it reads, several together', () => {
  const [one] = said(JOB, solved({ checks: [check('known length 2'), check('mark 1', { suspect: false })] }));
  expect(one).toMatchObject({ code: 'fit/disagrees', severity: 'mind', where: 'g' });
  expect(one!.sentence).toBe(
    'Known length 2 on “Grid” is 2.00 m, but by the others it reads 2.50 m: re-measure it, or look for a stretched scan.',
  );
  for (const gap of [{ knownM: null }, { readM: null }]) {
    const [mark] = said(JOB, solved({ checks: [check('mark 3', gap)] }));
    expect(mark!.sentence).toContain('Mark 3 on “Grid” lies 0.50 m from where the others put it');
  }
  // Below 10 cm a metre has three places.
  const near = (offM: number) => said(JOB, solved({ checks: [check('mark 3', { knownM: null, offM })] }))[0]!;
  expect(near(0.0999).sentence).toContain('lies 0.100 m');
  expect(near(0.1).sentence).toContain('lies 0.10 m');
  const [two, ...more] = said(JOB, solved({ checks: [check('known length 1'), check('known length 2')] }));
  expect(two!.sentence).toContain(
    'nothing tells which is wrong: known length 1, known length 2. Measure one more',
  );
  expect(more).toEqual([]);
  expect(said(JOB, solved({ checks: [check('mark 1', { suspect: false })] }))).toEqual([]);
  // What a straight picture inherits is said of its photo.
  const fit: Fit = { kind: 'straightened', sheetId: 'h', toPhoto: [1, 0, 0, 0, 1, 0, 0, 0, 1], lens: null };
  expect(said(held(fit), solved({ checks: [check('mark 1')] })).map((r) => r.code)).not.toContain(
    'fit/disagrees',
  );
});

test('a scan is stretched from 2 in 1000 on, either way', () => {
  const of = (stretch: number, fit: Fit = scale()) =>
    said(held(fit), solved({ stretch })).filter((r) => r.code.startsWith('fit/'));
  for (const fine of [1, 1.0019, 0.9981]) expect(of(fine)).toEqual([]);
  expect(of(1.021)[0]!.sentence).toContain('is 2.1 % longer across than up and down');
  expect(of(0.979)[0]).toMatchObject({ code: 'fit/stretched', severity: 'mind', where: 'g' });
  expect(of(0.979)[0]!.sentence).toContain('2.1 % shorter');
  expect(of(1.002)).toHaveLength(1);
  expect(of(1.5, { kind: 'metric' })).toEqual([]);
  const mended = edited(held(scale()), of(1.021)[0]!.fixes[0]!.edit);
  expect(mended.sheets.g!.fit).toEqual({ ...scale(), stretched: true });
});

test('a slab that comes to no ground is said to, unless it is said already why', () => {
  const nothing = { zones: [], unscaled: [], unseen: [] };
  const [found] = said(JOB, nothing);
  expect(found).toMatchObject({ code: 'slab/no-ground', severity: 'stop', where: 'a' });
  expect(found!.sentence).toContain('The slab “A” comes to no ground at all: look at how its sheet “Grid”');
  const codes = (change: Partial<Takeoff>) => said(JOB, { ...nothing, ...change }).map((r) => r.code);
  expect(codes({ unscaled: ['a'] })).not.toContain('slab/no-ground');
  expect(codes({ unseen: ['a'] })).not.toContain('slab/no-ground');
});

const figure = (
  change: Partial<Omit<TapeFigure, 'fit'>> & { loose?: number; checked?: number },
): TapeFigure => {
  const { loose = 0, checked = 0.5, ...rest } = change;
  const checks = rest.checks ?? [];
  return {
    sheetId: 'g',
    cornerIds: ['a0', 'a1', 'a2'],
    tapes: [],
    fit: { loose, observations: checks.map(() => ({ checked })) } as never,
    offM: 0,
    holds: true,
    places: {},
    checks,
    next: null,
    areaDeviationM2: null,
    ...rest,
  };
};
const ofTape = (change: Parameters<typeof figure>[0], job = JOB) => said(job, { figures: [figure(change)] });

test('a figure by tape that can still move asks for what holds it', () => {
  const next = { a: 'a0', b: 'a2', areaDeviationM2: null };
  expect(ofTape({ loose: 1, next })).toMatchObject([
    {
      code: 'tape/loose',
      severity: 'mind',
      where: 'a',
      sentence: 'By tape “A” can still change its shape: take one more measure, A–C.',
    },
  ]);
  expect(ofTape({ loose: 2, next })[0]!.sentence).toBe(
    'By tape “A” can still change its shape: take 2 more measures, A–C first.',
  );
  expect(ofTape({ loose: 1 })[0]!.sentence).toContain('take one more measure.');
  // Corners of no slab, as when it was deleted elsewhere.
  expect(ofTape({ loose: 1, cornerIds: ['x'] })[0]).toMatchObject({
    where: 'g',
    sentence: 'By tape the figure can still change its shape: take one more measure.',
  });
});

test('a tape that cannot be right is named; where nothing tells which, all are, and what would', () => {
  // Half of an error shows: 2.25 m read where 2.00 m are noted means 2.50 m.
  const [one, ...more] = ofTape({
    checks: [check('A–B', { readM: 2.25 }), check('B–C', { suspect: false })],
  });
  expect(one).toMatchObject({ code: 'tape/suspect', severity: 'mind', where: 'a' });
  expect(one!.sentence).toBe(
    'A–B of “A” is noted as 2.000 m but by the others reads 2.500 m: measure it again.',
  );
  expect(more).toEqual([]);
  expect(ofTape({ checks: [check('the corner at B', { knownM: null })] })[0]!.sentence).toBe(
    'The corner at B of “A” disagrees with the others: measure it again.',
  );
  const two = [check('A–B'), check('B–C')];
  expect(ofTape({ checks: two })).toMatchObject([
    {
      code: 'tape/disagree',
      where: 'a',
      sentence:
        'The tapes of “A” do not agree, and nothing tells which of A–B, B–C is wrong: measure one of them again.',
    },
  ]);
  expect(ofTape({ checks: two, next: { a: 'a1', b: 'a3', areaDeviationM2: 1 } })[0]!.sentence).toContain(
    'is wrong: measure B–D as well to find it.',
  );
  expect(ofTape({ checks: [check('A–B', { suspect: false })] })).toEqual([]);
});

test('corners that lie elsewhere than the tapes put them are put there by one tap', () => {
  const places = { a0: { x: 0.25, y: 0 } };
  const [moved] = ofTape({ holds: false, offM: 0.25, places });
  expect(moved).toMatchObject({ code: 'tape/moved', severity: 'mind', where: 'a' });
  expect(moved!.sentence).toContain('lie up to 0.250 m from where the tapes put them');
  expect(edited(JOB, moved!.fixes[0]!.edit).corners.a0).toMatchObject(places.a0);
});

test('a picture with one length is asked about, until something speaks for it', () => {
  const picture = { imageId: 'i', widthPx: 100, heightPx: 100 };
  const on = (fit: Fit, of: object | null = picture): Job => ({
    ...JOB,
    sheets: { g: { ...JOB.sheets.g!, picture: of as typeof picture | null, fit } },
  });
  const asked = (job: Job) => said(job, {}).filter((r) => r.code === 'fit/one-scale');
  const one = scale() as Extract<Fit, { kind: 'scale' }>;
  const [found] = asked(on(one));
  expect(found).toMatchObject({ severity: 'mind', where: 'g' });
  expect(found!.sentence).toContain('“Grid” goes by one scale. If it is a photo taken at an angle');
  const mended = edited(on(one), found!.fixes[0]!.edit);
  expect(mended.sheets.g!.fit).toEqual({ ...one, flat: true });
  expect(asked(mended)).toEqual([]);
  expect(asked(on({ ...one, flat: false }))).toHaveLength(1);
  expect(asked(on({ ...one, lengths: [one.lengths[0]!, one.lengths[0]!] }))).toEqual([]);
  expect(asked(on({ ...one, reach: { distanceM: 2, reason: 'at an angle' } }))).toEqual([]);
  expect(asked(on(one, { ...picture, drawn: true }))).toEqual([]);
  // A page is flat, and lengths that were typed need no picture.
  expect(asked(on(one, { ...picture, page: 1 }))).toEqual([]);
  expect(asked(on(one, null))).toEqual([]);
  expect(asked(on({ kind: 'metric' }))).toEqual([]);
});
