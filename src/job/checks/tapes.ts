import type { TapeFigure } from '../../takeoff/zone.ts';
import { tr } from '../../words/tr.ts';
import { cornerPair } from '../outline.ts';
import type { Job } from '../types.ts';
import { type Check, type Remark, remark } from './check.ts';

/** Figures by tape that can still move, that disagree with themselves, or that the corners no longer follow. */
export const tapes: Check = (job, takeoff) => takeoff.figures.flatMap((figure) => figureRemarks(job, figure));

function figureRemarks(job: Job, figure: TapeFigure): Remark[] {
  const slab = Object.values(job.slabs).find((s) =>
    s.corners.some((c) => figure.cornerIds.includes(c.cornerId)),
  );
  const where = slab?.id ?? figure.sheetId;
  const of = slab ? `“${slab.name}”` : tr`the figure`;
  if (figure.fit.loose > 0) {
    const more = figure.fit.loose === 1 ? tr`one more measure` : tr`${figure.fit.loose} more measures`;
    const first = figure.next
      ? `, ${cornerPair(job, figure.next.a, figure.next.b)} ${figure.fit.loose === 1 ? '' : tr`first`}`.trimEnd()
      : '';
    return [
      remark(
        'tape/loose',
        'mind',
        where,
        tr`By tape ${of} can still change its shape: take ${more}${first}.`,
      ),
    ];
  }
  const remarks: Remark[] = [];
  const wrong = figure.checks.filter((c) => c.suspect);
  if (wrong.length === 1) {
    const [c] = wrong;
    const size =
      c!.knownM === null
        ? ''
        : tr` is noted as ${c!.knownM.toFixed(3)} m but by the others reads ${reads(c!, figure)}`;
    const text = size
      ? tr`${c!.name} of ${of}${size}: measure it again.`
      : tr`${c!.name} of ${of} disagrees with the others: measure it again.`;
    remarks.push(remark('tape/suspect', 'mind', where, text.charAt(0).toUpperCase() + text.slice(1)));
  } else if (wrong.length > 1) {
    const more = figure.next
      ? tr`: measure ${cornerPair(job, figure.next.a, figure.next.b)} as well to find it`
      : '';
    const names = wrong.map((c) => c.name).join(', ');
    remarks.push(
      remark(
        'tape/disagree',
        'mind',
        where,
        tr`The tapes of ${of} do not agree, and nothing tells which of ${names} is wrong${more || tr`: measure one of them again`}.`,
      ),
    );
  }
  if (!figure.holds) {
    remarks.push({
      ...remark(
        'tape/moved',
        'mind',
        where,
        tr`Corners of ${of} lie up to ${figure.offM.toFixed(3)} m from where the tapes put them.`,
      ),
      fixes: [
        {
          label: tr`Put them where the tapes say`,
          edit: { type: 'place-corners', args: { places: figure.places } },
        },
      ],
    });
  }
  return remarks;
}

/** What the others make of a suspect: its residual undone by the share of it that shows. */
function reads(c: TapeFigure['checks'][number], figure: TapeFigure): string {
  const checked = figure.fit.observations[figure.checks.indexOf(c)]!.checked;
  const error = (c.readM! - c.knownM!) / Math.max(checked, 1e-6);
  return `${(c.knownM! + error).toFixed(3)} m`;
}
