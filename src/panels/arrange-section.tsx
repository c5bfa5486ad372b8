import { useState } from 'react';
import type { Frame } from '../../geometry/index.ts';
import { mirroredSlab, type RowDirection, rowOfCopies, sidesUnder, turnedSlab } from '../job/arrange.ts';
import type { Edit } from '../job/edits/index.ts';
import { cornerLetter } from '../job/outline.ts';
import type { Id, Job, Slab, Void } from '../job/types.ts';
import type { UnitSystem } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { Drawer } from './drawer.tsx';
import { Choice, LengthField, NumberField } from './fields.tsx';

/** Turns and mirrors a slab with all that is on it. */
export function TurnSection(props: {
  readonly job: Job;
  readonly slab: Slab;
  readonly frame: Frame;
  readonly newId: (prefix: string) => Id;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { job, slab, frame, newId, onChange } = props;
  const [degrees, setDegrees] = useState(90);
  return (
    <Drawer name="turn or mirror" summary={tr`Turn or mirror`}>
      <div className="fields">
        <NumberField
          label={tr`Turn by, counter-clockwise`}
          value={degrees}
          unit="°"
          low={-360}
          high={360}
          onEnter={setDegrees}
        />
        <div className="buttons">
          <button
            type="button"
            onClick={() => onChange(turnedSlab(job, slab, frame, (degrees * Math.PI) / 180, newId))}
          >{tr`Turn`}</button>
          <button
            type="button"
            onClick={() => onChange(mirroredSlab(job, slab, frame, 'left-right', newId))}
          >{tr`Mirror left and right`}</button>
          <button
            type="button"
            onClick={() => onChange(mirroredSlab(job, slab, frame, 'top-bottom', newId))}
          >{tr`Mirror top and bottom`}</button>
        </div>
      </div>
    </Drawer>
  );
}

const DIRECTIONS = [
  ['right', tr`to the right`],
  ['left', tr`to the left`],
  ['up', tr`upwards`],
  ['down', tr`downwards`],
] as const;

/** Copies of what is taken out, in a row: the posts of a fence. */
export function RowSection(props: {
  readonly job: Job;
  readonly subject: Void;
  readonly frame: Frame;
  readonly units: UnitSystem;
  readonly newId: (prefix: string) => Id;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { job, subject, frame } = props;
  const [count, setCount] = useState(1);
  const [everyM, setEvery] = useState(2.4);
  const [way, setWay] = useState('right');
  const sides = sidesUnder(job, subject);
  const options = [
    ...DIRECTIONS,
    ...sides.map(
      ({ from, to }) =>
        [`${from} ${to}`, tr`along ${cornerLetter(job, from)} to ${cornerLetter(job, to)}`] as const,
    ),
  ];
  const side = sides.find(({ from, to }) => way === `${from} ${to}`);
  const direction: RowDirection = side
    ? { kind: 'side', ...side }
    : { kind: DIRECTIONS.find(([id]) => id === way)?.[0] ?? 'right' };
  return (
    <Drawer name="copies" summary={tr`Copies in a row`}>
      <div className="fields">
        <NumberField
          label={tr`Copies`}
          value={count}
          unit="1"
          low={1}
          high={200}
          onEnter={(n) => setCount(Math.round(n))}
        />
        <LengthField
          label={tr`From middle to middle`}
          valueM={everyM}
          units={props.units}
          onEnter={setEvery}
        />
        <Choice label={tr`Which way`} value={way} options={options} onChange={setWay} />
        <button
          type="button"
          onClick={() =>
            props.onChange(rowOfCopies(job, subject, frame, count, everyM, direction, props.newId))
          }
        >{tr`Add the copies`}</button>
      </div>
    </Drawer>
  );
}
