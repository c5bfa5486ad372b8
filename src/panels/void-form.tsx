import type { Void, VoidShape } from '../job/types.ts';
import { areaText } from '../units/format.ts';
import { Choice, LengthField, NumberField, Section, TextField } from './fields.tsx';
import { VOID_OPTIONS } from './words.ts';
import type { FormProps } from './zone-form.tsx';

/** What is taken out, with its size. */
export function VoidForm(
  props: FormProps & { readonly subject: Void; readonly insideAreaM2: number | null },
) {
  const { subject: v, units, onChange } = props;
  const update = (change: { name?: string; kind?: Void['kind']; shape?: VoidShape }, merge?: string) =>
    onChange([{ type: 'update-void', args: { voidId: v.id, ...change } }], merge);
  return (
    <Section
      title={v.name}
      actions={
        <button type="button" onClick={props.onDelete}>
          Delete
        </button>
      }
    >
      <div className="fields">
        <TextField label="Name" value={v.name} onChange={(name) => update({ name }, `name ${v.id}`)} />
        <Choice label="Kind" value={v.kind} options={VOID_OPTIONS} onChange={(kind) => update({ kind })} />
        <SizeFields shape={v.shape} units={units} onShape={(shape) => update({ shape })} />
      </div>
      {props.insideAreaM2 !== null && (
        <p>Takes {areaText(props.insideAreaM2, units)} out of the slabs it lies on.</p>
      )}
    </Section>
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
          label="Width"
          valueM={shape.widthM}
          units={units}
          onEnter={(widthM) => onShape({ ...shape, widthM })}
        />
      );
    case 'circle':
      return (
        <LengthField
          label="Diameter"
          valueM={shape.radiusM * 2}
          units={units}
          onEnter={(d) => onShape({ ...shape, radiusM: d / 2 })}
        />
      );
    case 'rectangle':
      return (
        <>
          <LengthField
            label="Length"
            valueM={shape.lengthM}
            units={units}
            onEnter={(lengthM) => onShape({ ...shape, lengthM })}
          />
          <LengthField
            label="Width"
            valueM={shape.widthM}
            units={units}
            onEnter={(widthM) => onShape({ ...shape, widthM })}
          />
          <NumberField
            label="Turned by"
            value={Math.round((shape.angleRad * 180) / Math.PI)}
            unit="°"
            low={-360}
            high={360}
            onEnter={(degrees) => onShape({ ...shape, angleRad: (degrees * Math.PI) / 180 })}
          />
        </>
      );
    case 'outline':
      return <p>An outline of {shape.corners.length} corners.</p>;
  }
}
