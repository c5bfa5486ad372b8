import type { FitCheck, SolvedFit } from '../../takeoff/zone.ts';
import { tr } from '../../words/tr.ts';
import type { Sheet } from '../types.ts';
import { type Check, type Remark, remark } from './check.ts';

const metres = (m: number): string => `${m.toFixed(m < 0.1 ? 3 : 2)} m`;

/** Known lengths and marks that disagree by more than chance: one is wrong, or the scan is stretched. */
export const fitDisagrees: Check = (job, takeoff) =>
  takeoff.sheets.flatMap(({ id, fit }) => {
    const sheet = job.sheets[id];
    if (!sheet || !('frame' in fit) || sheet.fit?.kind === 'straightened') return [];
    return stretched(sheet, fit) ?? suspects(sheet, fit);
  });

function stretched(sheet: Sheet, { stretch }: SolvedFit): Remark[] | null {
  if (sheet.fit?.kind !== 'scale' || Math.abs(stretch - 1) < 0.002) return null;
  const percent = (Math.abs(stretch - 1) * 100).toFixed(1);
  const sentence = tr`“${sheet.name}” is stretched: one unit of it is ${percent} % ${stretch > 1 ? tr`longer` : tr`shorter`} across than up and down. Give it two scales.`;
  return [
    {
      ...remark('fit/stretched', 'mind', sheet.id, sentence),
      fixes: [
        {
          label: tr`Give it two scales`,
          edit: { type: 'set-fit', args: { sheetId: sheet.id, fit: { ...sheet.fit, stretched: true } } },
        },
      ],
    },
  ];
}

function suspects(sheet: Sheet, { checks }: SolvedFit): Remark[] {
  const wrong = checks.filter((c) => c.suspect);
  if (wrong.length === 0) return [];
  if (wrong.length > 1) {
    const names = wrong.map((c) => c.name).join(', ');
    const sentence = tr`On “${sheet.name}” these do not agree, and nothing tells which is wrong: ${names}. Measure one more.`;
    return [remark('fit/disagrees', 'mind', sheet.id, sentence)];
  }
  return [remark('fit/disagrees', 'mind', sheet.id, alone(sheet, wrong[0]!))];
}

function alone(sheet: Sheet, c: FitCheck): string {
  const name = `${c.name.charAt(0).toUpperCase()}${c.name.slice(1)}`;
  return c.knownM === null || c.readM === null
    ? tr`${name} on “${sheet.name}” lies ${metres(c.offM)} from where the others put it: mark it again, or measure it again.`
    : tr`${name} on “${sheet.name}” is ${metres(c.knownM)}, but by the others it reads ${metres(c.readM)}: re-measure it, or look for a stretched scan.`;
}
