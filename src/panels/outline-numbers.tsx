import { useState } from 'react';
import {
  arcThrough,
  distance,
  type Frame,
  fromFrame,
  type Point,
  pointOnSide,
  sideOf,
  toFrame,
} from '../../geometry/index.ts';
import type { Edit } from '../job/edits/index.ts';
import { cornerLetter, slabRing } from '../job/outline.ts';
import type { Id, Job, Slab } from '../job/types.ts';
import type { UnitSystem } from '../units/format.ts';
import type { Metres } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import { Drawer } from './drawer.tsx';
import { Choice, LengthField, NumberField } from './fields.tsx';

interface NumbersProps {
  readonly job: Job;
  readonly slab: Slab;
  /** Sheet to ground. */
  readonly frame: Frame;
  readonly units: UnitSystem;
  readonly newId: (prefix: string) => Id;
  readonly onChange: (edits: readonly Edit[], merge?: string) => void;
}

/** A slab's corners and sides as numbers on the ground: all that the board shows of it, to be read and typed. */
export function OutlineNumbers(props: NumbersProps) {
  const { job, slab, frame, units, onChange } = props;
  const letter = (id: Id) => cornerLetter(job, id);
  return (
    <Drawer name="outline in numbers" summary={tr`Corners and sides in numbers`}>
      <p className="dim">{tr`Right and up from the zero of the sheet. A side gets its length by moving the corner at its end; bow is how far its middle stands out, minus for inwards.`}</p>
      <ol className="outline-numbers">
        {slab.corners.map(({ cornerId }, k) => {
          const next = slab.corners[(k + 1) % slab.corners.length]!.cornerId;
          const side = groundSide(props, k);
          const at = toFrame(frame, job.corners[cornerId]!);
          const move = (id: Id, to: Point) => {
            const { x, y } = fromFrame(frame, to);
            onChange([{ type: 'move-corner', args: { cornerId: id, x, y } }]);
          };
          const name = `${letter(cornerId)}–${letter(next)}`;
          return (
            <li key={cornerId}>
              <fieldset className="fields numbers">
                <legend>{tr`Corner ${letter(cornerId)}`}</legend>
                <NumberField
                  label={tr`${letter(cornerId)} right`}
                  value={round(at.x)}
                  unit="m"
                  units={units}
                  low={-1e6}
                  high={1e6}
                  onEnter={(x) => move(cornerId, { x, y: at.y })}
                />
                <NumberField
                  label={tr`${letter(cornerId)} up`}
                  value={round(at.y)}
                  unit="m"
                  units={units}
                  low={-1e6}
                  high={1e6}
                  onEnter={(y) => move(cornerId, { x: at.x, y })}
                />
                <LengthField
                  label={tr`Side ${name}`}
                  valueM={distance(side.a, side.b)}
                  units={units}
                  onEnter={(lengthM) => move(next, stretched(side.a, side.b, lengthM))}
                />
                <NumberField
                  label={tr`Bow of ${name}`}
                  value={round(side.bow)}
                  unit="m"
                  units={units}
                  low={-1e4}
                  high={1e4}
                  onEnter={(bow) => onChange(bent(props, k, bow))}
                />
                <span className="buttons">
                  <button
                    type="button"
                    className="link"
                    onClick={() =>
                      onChange([
                        {
                          type: 'insert-corner',
                          args: { slabId: slab.id, cornerId, newId: props.newId('c'), t: 0.5 },
                        },
                      ])
                    }
                  >{tr`New corner in ${name}`}</button>
                  <button
                    type="button"
                    className="link"
                    onClick={() => onChange([{ type: 'remove-corner', args: { cornerId } }])}
                  >{tr`Delete corner ${letter(cornerId)}`}</button>
                </span>
              </fieldset>
            </li>
          );
        })}
      </ol>
      <CutAcross {...props} />
    </Drawer>
  );
}

/** Coordinates to the tenth of a millimetre: what is typed can be read again. */
const round = (value: number): number => Math.round(value * 1e4) / 1e4 + 0;

const stretched = (a: Point, b: Point, lengthM: Metres): Point => {
  const share = lengthM / distance(a, b);
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
};

/** A side on the ground: its ends, and how far its middle stands out of the slab. */
function groundSide({ job, slab, frame }: NumbersProps, k: number) {
  const ring = slabRing(job, slab);
  const side = sideOf(ring, k);
  const [a, b] = [toFrame(frame, side.a), toFrame(frame, side.b)];
  const out = outward(ring.map((v) => toFrame(frame, v)));
  const middle = toFrame(frame, pointOnSide(side, 0.5));
  const length = distance(a, b);
  const normal = { x: ((b.y - a.y) / length) * out, y: (-(b.x - a.x) / length) * out };
  const bow = side.arc
    ? (middle.x - (a.x + b.x) / 2) * normal.x + (middle.y - (a.y + b.y) / 2) * normal.y
    : 0;
  return { a, b, normal, bow };
}

/** 1 where the corners go round counter-clockwise, −1 where they go the other way. */
const outward = (points: readonly Point[]): 1 | -1 =>
  points.reduce((sum, p, i) => {
    const q = points[(i + 1) % points.length]!;
    return sum + p.x * q.y - q.x * p.y;
  }, 0) >= 0
    ? 1
    : -1;

function bent(props: NumbersProps, k: number, bow: Metres): Edit[] {
  const { slab, frame } = props;
  const { a, b, normal } = groundSide(props, k);
  const middle = { x: (a.x + b.x) / 2 + normal.x * bow, y: (a.y + b.y) / 2 + normal.y * bow };
  // A bow that makes no arc is a straight side.
  const via = bow !== 0 && arcThrough(a, middle, b) ? fromFrame(frame, middle) : null;
  return [{ type: 'update-side', args: { slabId: slab.id, cornerId: slab.corners[k]!.cornerId, via } }];
}

/** A cut from one side to another, each end by its distance along the side. */
function CutAcross(props: NumbersProps) {
  const { job, slab, units, onChange } = props;
  const name = (k: number) =>
    `${cornerLetter(job, slab.corners[k]!.cornerId)}–${cornerLetter(job, slab.corners[(k + 1) % slab.corners.length]!.cornerId)}`;
  const sides = slab.corners.map((_, k) => [String(k), name(k)] as const);
  const [ends, setEnds] = useState([
    { side: '0', alongM: null as Metres | null },
    { side: String(Math.min(2, slab.corners.length - 1)), alongM: null as Metres | null },
  ]);
  const set = (i: number, change: { side?: string; alongM?: Metres }) =>
    setEnds(ends.map((e, j) => (i === j ? { ...e, ...change } : e)));
  const points = ends.map(({ side, alongM }) => {
    const k = Number(side);
    const corner = slab.corners[k];
    if (!corner || alongM === null) return null;
    const { a, b } = groundSide(props, k);
    const t = alongM / distance(a, b);
    return t >= 0 && t <= 1 ? { at: 'side' as const, cornerId: corner.cornerId, t } : null;
  });
  const [first, second] = points;
  return (
    <fieldset className="fields numbers">
      <legend>{tr`Cut across, by numbers`}</legend>
      {ends.map((end, i) => (
        <span key={i === 0 ? 'from' : 'to'} className="pair">
          <Choice
            label={i === 0 ? tr`From side` : tr`To side`}
            value={end.side}
            options={sides}
            onChange={(side) => set(i, { side })}
          />
          <LengthField
            label={tr`From its corner ${name(Number(end.side)).split('–')[0]!}`}
            valueM={end.alongM}
            units={units}
            onEnter={(alongM) => set(i, { alongM })}
          />
        </span>
      ))}
      <button
        type="button"
        disabled={!first || !second}
        onClick={() =>
          first &&
          second &&
          onChange([
            { type: 'add-cut', args: { id: props.newId('k'), slabId: slab.id, points: [first, second] } },
          ])
        }
      >{tr`Cut`}</button>
    </fieldset>
  );
}
