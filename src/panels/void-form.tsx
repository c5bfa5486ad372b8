import { Fragment } from 'react';
import { type Frame, fromFrame, toFrame } from '../../geometry/index.ts';
import type { Void, VoidShape } from '../job/types.ts';
import { areaText } from '../units/format.ts';
import type { SheetPoint } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import { RowSection } from './arrange-section.tsx';
import { Drawer } from './drawer.tsx';
import { Choice, LengthField, NumberField, Section, TextField } from './fields.tsx';
import { VOID_OPTIONS } from './words.ts';
import type { FormProps } from './zone-form.tsx';

/** What is taken out, with its size. */
export function VoidForm(
  props: FormProps & {
    readonly subject: Void;
    readonly insideAreaM2: number | null;
    readonly frame: Frame | null;
  },
) {
  const { subject: v, units, onChange } = props;
  const update = (change: { name?: string; kind?: Void['kind']; shape?: VoidShape }, merge?: string) =>
    onChange([{ type: 'update-void', args: { voidId: v.id, ...change } }], merge);
  return (
    <Section title={v.name} actions={<button type="button" onClick={props.onDelete}>{tr`Delete`}</button>}>
      <div className="fields">
        <TextField label={tr`Name`} value={v.name} onChange={(name) => update({ name }, `name ${v.id}`)} />
        <Choice
          label={tr`Kind`}
          value={v.kind}
          options={VOID_OPTIONS}
          onChange={(kind) => update({ kind })}
        />
        <SizeFields shape={v.shape} units={units} onShape={(shape) => update({ shape })} />
      </div>
      {props.frame && (
        <>
          <PlaceFields {...props} frame={props.frame} onShape={(shape) => update({ shape })} />
          <RowSection {...props} frame={props.frame} />
        </>
      )}
      {props.insideAreaM2 !== null && (
        <p>{tr`Takes ${areaText(props.insideAreaM2, units)} out of the slabs it lies on.`}</p>
      )}
    </Section>
  );
}

/** Where it is on the ground: its middle, or the ends of a line. */
function PlaceFields(props: {
  readonly subject: Void;
  readonly frame: Frame;
  readonly units: FormProps['units'];
  readonly onShape: (shape: VoidShape) => void;
}) {
  const { frame, units, onShape } = props;
  const { shape } = props.subject;
  const places: ReadonlyArray<readonly [string, SheetPoint, (p: SheetPoint) => VoidShape]> =
    shape.type === 'line'
      ? [
          [tr`Begins`, shape.a, (a) => ({ ...shape, a })],
          [tr`Ends`, shape.b, (b) => ({ ...shape, b })],
        ]
      : shape.type === 'outline'
        ? shape.corners.map((c, k) => [
            tr`Corner ${k + 1}`,
            c,
            (p) => ({ ...shape, corners: shape.corners.map((d, i) => (i === k ? { ...d, ...p } : d)) }),
          ])
        : [[tr`Middle`, shape.centre, (centre) => ({ ...shape, centre })]];
  return (
    <Drawer name="void in numbers" summary={tr`Place in numbers`}>
      <div className="fields numbers">
        {places.map(([words, at, made]) => {
          const ground = toFrame(frame, at);
          const enter = (x: number, y: number) => onShape(made(fromFrame(frame, { x, y })));
          return (
            <Fragment key={words}>
              <NumberField
                label={tr`${words}, right`}
                value={Math.round(ground.x * 1e4) / 1e4}
                unit="m"
                units={units}
                low={-1e6}
                high={1e6}
                onEnter={(x) => enter(x, ground.y)}
              />
              <NumberField
                label={tr`${words}, up`}
                value={Math.round(ground.y * 1e4) / 1e4}
                unit="m"
                units={units}
                low={-1e6}
                high={1e6}
                onEnter={(y) => enter(ground.x, y)}
              />
            </Fragment>
          );
        })}
      </div>
    </Drawer>
  );
}

function SizeFields(props: {
  readonly shape: VoidShape;
  readonly units: FormProps['units'];
  readonly onShape: (shape: VoidShape) => void;
}) {
  const { shape, units, onShape } = props;
  switch (shape.type) {
    case 'line':
      return (
        <LengthField
          label={tr`Width`}
          valueM={shape.widthM}
          units={units}
          onEnter={(widthM) => onShape({ ...shape, widthM })}
        />
      );
    case 'circle':
      return (
        <LengthField
          label={tr`Diameter`}
          valueM={shape.radiusM * 2}
          units={units}
          onEnter={(d) => onShape({ ...shape, radiusM: d / 2 })}
        />
      );
    case 'rectangle':
      return (
        <>
          <LengthField
            label={tr`Length`}
            valueM={shape.lengthM}
            units={units}
            onEnter={(lengthM) => onShape({ ...shape, lengthM })}
          />
          <LengthField
            label={tr`Width`}
            valueM={shape.widthM}
            units={units}
            onEnter={(widthM) => onShape({ ...shape, widthM })}
          />
          <NumberField
            label={tr`Turned by`}
            value={Math.round((shape.angleRad * 180) / Math.PI)}
            unit="°"
            low={-360}
            high={360}
            onEnter={(degrees) => onShape({ ...shape, angleRad: (degrees * Math.PI) / 180 })}
          />
        </>
      );
    case 'outline':
      return <p>{tr`An outline of ${shape.corners.length} corners.`}</p>;
  }
}
