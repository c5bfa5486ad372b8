import { useState } from 'react';
import { type Frame, fromFrame, toFrame } from '../../geometry/index.ts';
import type { Edit } from '../job/edits/index.ts';
import { freeName } from '../job/names.ts';
import { DEFAULT_SURFACE, type Id, type Job, type Void } from '../job/types.ts';
import type { UnitSystem } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { Drawer } from './drawer.tsx';
import { Choice, LengthField, NumberField, Section } from './fields.tsx';

const THINGS = [
  ['slab', tr`slab`],
  ['post', tr`round post`],
  ['pit', tr`pit, planter or plinth`],
  ['drain', tr`drain`],
] as const;
type Thing = (typeof THINGS)[number][0];

/** Draws without the board: what it is, how large, and where. */
export function DrawByNumbers(props: {
  readonly job: Job;
  readonly sheetId: Id;
  readonly frame: Frame;
  readonly units: UnitSystem;
  readonly newId: (prefix: string) => Id;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { job, sheetId, frame, units } = props;
  const [thing, setThing] = useState<Thing>('slab');
  const [sizes, setSizes] = useState({ across: 4, up: 3, small: 0.1 });
  const [at, setAt] = useState<{ readonly x: number; readonly y: number } | null>(null);
  const place = at ?? { x: thing === 'slab' ? freeX(job, sheetId, frame) : 0, y: 0 };
  const add = () => {
    const ground = (dx: number, dy: number) => fromFrame(frame, { x: place.x + dx, y: place.y + dy });
    props.onChange([
      thing === 'slab' ? slabEdit(props, ground, sizes) : voidEdit(props, thing, ground, sizes),
    ]);
    setAt(null);
  };
  const small = { post: tr`Diameter`, drain: tr`Width of the drain` } as const;
  return (
    <Section title={tr`Draw by numbers`}>
      <Drawer name="draw by numbers" summary={tr`Add a slab or what is taken out, without the board`}>
        <div className="fields numbers">
          <Choice
            label={tr`What`}
            value={thing}
            options={THINGS}
            onChange={(next) => {
              setThing(next);
              setAt(null);
            }}
          />
          {thing !== 'post' && (
            <LengthField
              label={tr`Across`}
              valueM={sizes.across}
              units={units}
              onEnter={(across) => setSizes({ ...sizes, across })}
            />
          )}
          {(thing === 'slab' || thing === 'pit') && (
            <LengthField
              label={tr`Up`}
              valueM={sizes.up}
              units={units}
              onEnter={(up) => setSizes({ ...sizes, up })}
            />
          )}
          {(thing === 'post' || thing === 'drain') && (
            <LengthField
              label={small[thing]}
              valueM={sizes.small}
              units={units}
              onEnter={(value) => setSizes({ ...sizes, small: value })}
            />
          )}
          <NumberField
            label={thing === 'slab' ? tr`Its lower left corner, right` : tr`Its middle, right`}
            value={place.x}
            unit="m"
            units={units}
            low={-1e6}
            high={1e6}
            onEnter={(x) => setAt({ ...place, x })}
          />
          <NumberField
            label={thing === 'slab' ? tr`and up` : tr`and up `}
            value={place.y}
            unit="m"
            units={units}
            low={-1e6}
            high={1e6}
            onEnter={(y) => setAt({ ...place, y })}
          />
          <button type="button" className="main" onClick={add}>{tr`Add it`}</button>
        </div>
      </Drawer>
    </Section>
  );
}

/** Half a metre to the right of all that is drawn; the zero of the sheet where nothing is. */
function freeX(job: Job, sheetId: Id, frame: Frame): number {
  const xs = Object.values(job.corners)
    .filter((c) => c.sheetId === sheetId)
    .map((c) => toFrame(frame, c).x);
  return xs.length === 0 ? 0 : Math.round((Math.max(...xs) + 0.5) * 100) / 100;
}

type Ground = (dx: number, dy: number) => { readonly x: number; readonly y: number };
interface Sizes {
  readonly across: number;
  readonly up: number;
  readonly small: number;
}
interface Into {
  readonly job: Job;
  readonly sheetId: Id;
  readonly newId: (prefix: string) => Id;
}

function slabEdit({ job, sheetId, newId }: Into, ground: Ground, { across, up }: Sizes): Edit {
  const slabs = Object.values(job.slabs);
  const corners = [ground(0, 0), ground(across, 0), ground(across, up), ground(0, up)].map((c) => ({
    id: newId('c'),
    x: c.x,
    y: c.y,
    via: null,
  }));
  const surface = slabs[slabs.length - 1]?.surface ?? DEFAULT_SURFACE;
  return {
    type: 'add-slab',
    args: { id: newId('s'), name: freeName(tr`Slab`, slabs), sheetId, corners, surface },
  };
}

function voidEdit(
  { job, sheetId, newId }: Into,
  kind: Exclude<Thing, 'slab'>,
  ground: Ground,
  { across, up, small }: Sizes,
): Edit {
  const shape: Void['shape'] =
    kind === 'post'
      ? { type: 'circle', centre: ground(0, 0), radiusM: small / 2 }
      : kind === 'pit'
        ? { type: 'rectangle', centre: ground(0, 0), lengthM: across, widthM: up, angleRad: 0 }
        : { type: 'line', a: ground(-across / 2, 0), b: ground(across / 2, 0), widthM: small };
  const word = { post: tr`Post`, pit: tr`Pit`, drain: tr`Drain` }[kind];
  const name = freeName(word, Object.values(job.voids));
  return { type: 'add-void', args: { id: newId('v'), name, kind, sheetId, shape } };
}
