import { useState } from 'react';
import { type Offset, simpsonArea, trapezoidArea } from '../../geometry/index.ts';
import type { Edit } from '../job/edits/index.ts';
import { cornerLetter, cornerPair } from '../job/outline.ts';
import type { Id, Job, Slab, Tape } from '../job/types.ts';
import { WITHIN_95 } from '../takeoff/uncertainty.ts';
import type { TapeFigure } from '../takeoff/zone.ts';
import { areaText, lengthText } from '../units/format.ts';
import { parseLength } from '../units/length.ts';
import { tr } from '../words/tr.ts';
import { ChecksTable } from './checks-table.tsx';
import { Drawer } from './drawer.tsx';
import { Choice, LengthField, Section, TextField } from './fields.tsx';

interface TapeProps {
  readonly job: Job;
  readonly slab: Slab;
  readonly figures: readonly TapeFigure[];
  readonly newId: (prefix: string) => Id;
  /** Makes the edits, then puts the corners where all tapes together say. */
  readonly onTapes: (edits: readonly Edit[]) => void;
}

/** A slab by tape: its sides and diagonals, right angles and offsets, adjusted together. */
export function TapeSection(props: TapeProps) {
  const { job, slab, figures } = props;
  const figure = figures.find((f) => slab.corners.some((c) => f.cornerIds.includes(c.cornerId)));
  return (
    <Section title={tr`By tape: ${slab.name}`}>
      <p className="dim">{tr`Draw the slab roughly; corners go by letters. Type what you taped: as many sides and diagonals as you have. They are adjusted together, and one that cannot be right is named.`}</p>
      <Sides {...props} />
      <Diagonal {...props} />
      <RightAngle {...props} />
      <Curve {...props} />
      {figure && <Figure job={job} figure={figure} onTapes={props.onTapes} />}
    </Section>
  );
}

const letters = (job: Job, slab: Slab): ReadonlyArray<readonly [Id, string]> =>
  slab.corners.map((c) => [c.cornerId, cornerLetter(job, c.cornerId)] as const);

/** The tape between two corners, whichever way it was laid. */
const between = (job: Job, a: Id, b: Id): Tape | undefined =>
  Object.values(job.tapes ?? {}).find(
    (t) => t.kind === 'distance' && ((t.a === a && t.b === b) || (t.a === b && t.b === a)),
  );

function Sides({ job, slab, newId, onTapes }: TapeProps) {
  return (
    <div className="fields">
      {slab.corners.map(({ cornerId, via }, k) => {
        const next = slab.corners[(k + 1) % slab.corners.length]!.cornerId;
        const tape = between(job, cornerId, next);
        const name = `${cornerLetter(job, cornerId)}–${cornerLetter(job, next)}`;
        return (
          <LengthField
            key={cornerId}
            label={via ? tr`${name}, straight across` : name}
            valueM={tape?.kind === 'distance' ? tape.lengthM : null}
            units={job.settings.units}
            placeholder={tr`not taped`}
            onEnter={(lengthM) =>
              onTapes([
                {
                  type: 'set-tape',
                  args: { id: tape?.id ?? newId('t'), kind: 'distance', a: cornerId, b: next, lengthM },
                },
              ])
            }
          />
        );
      })}
    </div>
  );
}

function Diagonal({ job, slab, newId, onTapes }: TapeProps) {
  const corners = letters(job, slab);
  const [from, setFrom] = useState(corners[0]?.[0] ?? '');
  const [to, setTo] = useState(corners[2]?.[0] ?? '');
  const has = (id: Id) => corners.some(([c]) => c === id);
  const [a, b] = [has(from) ? from : corners[0]![0], has(to) ? to : (corners[2] ?? corners[1]!)[0]];
  const tape = between(job, a, b);
  return (
    <div className="fields">
      <Choice label={tr`Diagonal from`} value={a} options={corners} onChange={setFrom} />
      <Choice label={tr`to`} value={b} options={corners} onChange={setTo} />
      <LengthField
        key={`${a} ${b}`}
        label={tr`${cornerLetter(job, a)}–${cornerLetter(job, b)} by tape`}
        valueM={tape?.kind === 'distance' ? tape.lengthM : null}
        units={job.settings.units}
        placeholder={tr`not taped`}
        onEnter={(lengthM) =>
          onTapes([
            { type: 'set-tape', args: { id: tape?.id ?? newId('t'), kind: 'distance', a, b, lengthM } },
          ])
        }
      />
    </div>
  );
}

function RightAngle({ job, slab, newId, onTapes }: TapeProps) {
  const corners = letters(job, slab);
  const [chosen, setChosen] = useState(corners[0]?.[0] ?? '');
  const at = corners.some(([c]) => c === chosen) ? chosen : corners[0]![0];
  const k = slab.corners.findIndex((c) => c.cornerId === at);
  const n = slab.corners.length;
  const [a, b] = [slab.corners[(k + n - 1) % n]!.cornerId, slab.corners[(k + 1) % n]!.cornerId];
  const known = Object.values(job.tapes ?? {}).find((t) => t.kind === 'square' && t.at === at);
  return (
    <div className="fields">
      <Choice label={tr`Right angle at`} value={at} options={corners} onChange={setChosen} />
      <button
        type="button"
        disabled={known !== undefined}
        onClick={() => onTapes([{ type: 'set-tape', args: { id: newId('t'), kind: 'square', at, a, b } }])}
      >
        {known ? tr`Is square` : tr`It is square`}
      </button>
    </div>
  );
}

/** Reads “0.4 0.12, 0.8 0.31 …”: along, off, along, off. */
function readOffsets(text: string, us: boolean): Offset[] | null {
  const words = text
    .trim()
    .split(/[\s;,]+/)
    .filter((w) => w !== '');
  const numbers = words.map((w) => {
    if (/^-?0+(\.0*)?$/.test(w)) return 0;
    const length = parseLength(w.replace(/^-/, ''), us ? 'ft' : 'm');
    return length.ok ? length.value * (w.startsWith('-') ? -1 : 1) : Number.NaN;
  });
  if (numbers.length === 0 || numbers.length % 2 === 1 || numbers.some(Number.isNaN)) return null;
  const offsets: Offset[] = [];
  for (let i = 0; i < numbers.length; i += 2) offsets.push({ along: numbers[i]!, off: numbers[i + 1]! });
  return offsets.every((o, i) => o.along > (i === 0 ? 0 : offsets[i - 1]!.along)) ? offsets : null;
}

function Curve({ job, slab, newId, onTapes }: TapeProps) {
  const sides = slab.corners.map(({ cornerId }, k) => {
    const next = slab.corners[(k + 1) % slab.corners.length]!.cornerId;
    return [cornerId, `${cornerLetter(job, cornerId)}–${cornerLetter(job, next)}`] as const;
  });
  const [chosen, setChosen] = useState(sides[0]?.[0] ?? '');
  const [text, setText] = useState('');
  const { units } = job.settings;
  const side = sides.some(([c]) => c === chosen) ? chosen : sides[0]![0];
  const k = slab.corners.findIndex((c) => c.cornerId === side);
  const end = slab.corners[(k + 1) % slab.corners.length]!.cornerId;
  const [a, b] = [job.corners[side]!, job.corners[end]!];
  const base = between(job, side, end);
  const length = base?.kind === 'distance' ? base.lengthM : Math.hypot(b.x - a.x, b.y - a.y);
  const offsets = readOffsets(text, units === 'us');
  const fits = offsets?.every((o) => o.along < length) ?? false;
  const whole = offsets && [{ along: 0, off: 0 }, ...offsets, { along: length, off: 0 }];
  const simpson = whole && simpsonArea(whole);
  return (
    <Drawer name="offsets" className="" summary={tr`A curved side by offsets`}>
      <div className="fields">
        <Choice label={tr`Baseline along`} value={side} options={sides} onChange={setChosen} />
        <TextField
          label={tr`Offsets: how far along, how far off, in turn; off to the left of A–B is positive, as 0.5 0.12 1 0.2`}
          value={text}
          onChange={setText}
        />
      </div>
      {whole && fits && (
        <p className="dim">{tr`Between the baseline and the curve: ${areaText(Math.abs(trapezoidArea(whole)), units)} by trapezoids${simpson === null ? '' : tr`, ${areaText(Math.abs(simpson), units)} by Simpson’s rule`}.`}</p>
      )}
      {text.trim() !== '' && !fits && (
        <p
          className="wrong"
          role="alert"
        >{tr`Type pairs that go on along the side, each less than ${lengthText(length, units)}: 0.5 0.12 1 0.2.`}</p>
      )}
      <button
        type="button"
        disabled={!fits}
        onClick={() => {
          onTapes(curveEdits(job, slab, side, end, length, offsets!, newId));
          setText('');
        }}
      >{tr`Put the corners in`}</button>
    </Drawer>
  );
}

function curveEdits(
  job: Job,
  slab: Slab,
  a: Id,
  b: Id,
  lengthM: number,
  offsets: readonly Offset[],
  newId: (prefix: string) => Id,
): Edit[] {
  const known = between(job, a, b);
  const edits: Edit[] = known
    ? []
    : [{ type: 'set-tape', args: { id: newId('t'), kind: 'distance', a, b, lengthM } }];
  const places: Record<Id, { x: number; y: number }> = {};
  const [p, q] = [job.corners[a]!, job.corners[b]!];
  const d = Math.hypot(q.x - p.x, q.y - p.y);
  const [ux, uy] = [(q.x - p.x) / d, (q.y - p.y) / d];
  let from = a;
  let done = 0;
  for (const { along, off } of offsets) {
    const id = newId('c');
    const t = (along - done) / (lengthM - done);
    edits.push({ type: 'insert-corner', args: { slabId: slab.id, cornerId: from, newId: id, t } });
    places[id] = { x: p.x + ux * along - uy * off, y: p.y + uy * along + ux * off };
    from = id;
    done = along;
  }
  edits.push({ type: 'place-corners', args: { places } });
  const ids = Object.keys(places);
  offsets.forEach(({ along, off }, i) => {
    edits.push({
      type: 'set-tape',
      args: { id: newId('t'), kind: 'offset', a, b, corner: ids[i]!, alongM: along, offM: off },
    });
  });
  return edits;
}

/** What the tapes make of the corners. */
function Figure(props: {
  readonly job: Job;
  readonly figure: TapeFigure;
  readonly onTapes: (edits: readonly Edit[]) => void;
}) {
  const { job, figure } = props;
  const { units } = job.settings;
  const next = figure.next && cornerPair(job, figure.next.a, figure.next.b);
  const rows = figure.checks
    .map((c, i) => {
      const tapeId = figure.tapes[i]!.id;
      const onLeaveOut = () => props.onTapes([{ type: 'remove-tape', args: { tapeId } }]);
      return { ...c, key: tapeId, onLeaveOut };
    })
    .sort((a, b) => a.name.localeCompare(b.name, 'en'));
  return (
    <>
      {figure.areaDeviationM2 !== null && (
        <p className="dim">{tr`The figure is rigid, with ${figure.fit.redundancy} ${figure.fit.redundancy === 1 ? tr`measure` : tr`measures`} to spare; its area is known to ± ${areaText(figure.areaDeviationM2 * WITHIN_95, units)} (95 %).${
          next && figure.next!.areaDeviationM2 !== null
            ? tr` With ${next} as well: ± ${areaText(figure.next!.areaDeviationM2 * WITHIN_95, units)}.`
            : ''
        }`}</p>
      )}
      {figure.fit.loose > 0 && next && (
        <p className="dim">{tr`Measure ${next} next: ${figure.fit.loose} to go until nothing can move.`}</p>
      )}
      <ChecksTable
        caption={tr`What was taped, and what all of it together makes`}
        words={[tr`Taped`, tr`Adjusted`]}
        rows={rows}
        units={units}
        offText={(offM) => `${(offM * 1000).toFixed(1)} mm`}
      />
    </>
  );
}
