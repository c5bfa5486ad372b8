import type { Fit, Job, Sheet } from '../job/types.ts';
import type { SheetTakeoff } from '../takeoff/zone.ts';
import { lengthText } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { ChecksTable } from './checks-table.tsx';
import { Choice, LengthField, NumberField, Section, Switch } from './fields.tsx';
import { MarksForm } from './marks-form.tsx';

interface SheetProps {
  readonly job: Job;
  readonly sheet: Sheet;
  readonly solved: SheetTakeoff | undefined;
  /** Whether its picture is made of lines: a drawing in its own units. */
  readonly drawn: boolean;
  readonly onFit: (fit: Fit) => void;
  readonly onScale: (more: boolean) => void;
  readonly onMarks: () => void;
  readonly onStraight: () => void;
  readonly onPictureOf: (() => void) | null;
  readonly onRemove: () => void;
}

/** How the sheet in hand comes to metres on the ground, and what speaks against it. */
export function SheetSection(props: SheetProps) {
  const { sheet } = props;
  return (
    <Section
      title={tr`Sheet: ${sheet.name}`}
      actions={<button type="button" onClick={props.onRemove}>{tr`Delete`}</button>}
    >
      <FitForm {...props} />
      <Checks {...props} />
    </Section>
  );
}

function FitForm(props: SheetProps) {
  const { sheet, onFit } = props;
  const { fit } = sheet;
  switch (fit?.kind) {
    case undefined:
      return <NoFit {...props} />;
    case 'metric':
      return <p className="dim">{tr`Metres as they were typed.`}</p>;
    case 'scale':
      return <ScaleForm {...props} fit={fit} />;
    case 'drawing':
      return <DrawingForm {...props} fit={fit} />;
    case 'page':
      return <PageRatio ratio={fit.ratio} onFit={onFit} />;
    case 'marks':
      return <MarksForm {...props} fit={fit} units={props.job.settings.units} />;
    case 'straightened':
      return <p className="dim">{tr`Made from a photo; its marks say how large it is. Trace on either.`}</p>;
    case 'georeferenced':
      return (
        <div className="fields">
          <NumberField
            label={tr`How far off a point may be (one deviation)`}
            value={fit.deviationM}
            unit="m"
            low={0.001}
            high={100}
            onEnter={(deviationM) => onFit({ ...fit, deviationM })}
            onClear={() => onFit({ ...fit, deviationM: null })}
          />
        </div>
      );
  }
}

function NoFit(props: SheetProps) {
  const { sheet, drawn, onFit } = props;
  return (
    <>
      <p className="empty">{tr`It has no scale yet.`}</p>
      {sheet.picture?.page !== undefined && <PageRatio ratio={null} onFit={onFit} />}
      {drawn && <Units metresPerUnit={null} onFit={onFit} />}
      <div className="buttons">
        <button
          type="button"
          className="main"
          onClick={() => props.onScale(false)}
        >{tr`Scale from a known length`}</button>
        {!drawn && sheet.picture?.page === undefined && (
          <button type="button" onClick={props.onMarks}>{tr`Straighten a photo taken at an angle`}</button>
        )}
      </div>
    </>
  );
}

function PageRatio(props: { readonly ratio: number | null; readonly onFit: (fit: Fit) => void }) {
  return (
    <div className="fields">
      <NumberField
        label={tr`Scale of the page, 1 : N`}
        value={props.ratio}
        unit="1"
        low={0.001}
        high={1_000_000}
        onEnter={(ratio) => props.onFit({ kind: 'page', ratio })}
      />
    </div>
  );
}

const UNITS: ReadonlyArray<readonly [string, string, number]> = [
  ['mm', tr`millimetres`, 0.001],
  ['cm', tr`centimetres`, 0.01],
  ['m', tr`metres`, 1],
  ['in', tr`inches`, 0.0254],
  ['ft', tr`feet of 0.3048 m`, 0.3048],
];

function Units(props: { readonly metresPerUnit: number | null; readonly onFit: (fit: Fit) => void }) {
  const known = UNITS.find(
    ([, , m]) => props.metresPerUnit !== null && Math.abs(m / props.metresPerUnit - 1) < 1e-9,
  );
  return (
    <div className="fields">
      <Choice
        label={tr`The drawing is in`}
        value={known?.[0] ?? 'other'}
        options={[...UNITS.map(([id, words]) => [id, words] as const), ['other', tr`something else`]]}
        onChange={(id) => {
          const unit = UNITS.find(([u]) => u === id);
          if (unit) props.onFit({ kind: 'drawing', metresPerUnit: unit[2] });
        }}
      />
    </div>
  );
}

function DrawingForm(props: SheetProps & { readonly fit: Extract<Fit, { kind: 'drawing' }> }) {
  const { fit, job, sheet, onFit } = props;
  const across = fit.metresPerUnit * Math.max(sheet.picture?.widthPx ?? 0, sheet.picture?.heightPx ?? 0);
  return (
    <>
      <Units metresPerUnit={fit.metresPerUnit} onFit={onFit} />
      <p className="dim">{tr`That makes it ${lengthText(across, job.settings.units)} across, margins and all.`}</p>
      <div className="buttons">
        <button
          type="button"
          onClick={() => props.onScale(false)}
        >{tr`Scale from a known length instead`}</button>
      </div>
    </>
  );
}

function ScaleForm(props: SheetProps & { readonly fit: Extract<Fit, { kind: 'scale' }> }) {
  const { fit, job, onFit } = props;
  return (
    <>
      <ul className="rows">
        {fit.lengths.map((l, i) => (
          <li key={`${l.a.x} ${l.a.y} ${l.b.x} ${l.b.y}`}>
            <LengthField
              label={tr`Known length ${i + 1}`}
              valueM={l.lengthM}
              units={job.settings.units}
              onEnter={(lengthM) =>
                onFit({ ...fit, lengths: fit.lengths.map((k, j) => (j === i ? { ...k, lengthM } : k)) })
              }
            />
            {fit.lengths.length > 1 && (
              <button
                type="button"
                aria-label={tr`Leave out known length ${i + 1}`}
                onClick={() => onFit({ ...fit, lengths: fit.lengths.filter((_, j) => j !== i) })}
              >{tr`Leave out`}</button>
            )}
          </li>
        ))}
      </ul>
      {(fit.lengths.length > 1 || fit.stretched) && (
        <Switch
          label={tr`The scan is stretched: one scale across, another up and down`}
          on={fit.stretched === true}
          onChange={(stretched) => onFit({ ...fit, stretched })}
        />
      )}
      {!props.drawn && props.sheet.picture?.page === undefined && (fit.flat || fit.lengths.length === 1) && (
        <Switch
          label={tr`It is a plan, or taken from straight above`}
          on={fit.flat === true}
          onChange={(flat) => onFit({ ...fit, flat, reach: flat ? null : fit.reach })}
        />
      )}
      {!props.drawn && !fit.flat && <Reach fit={fit} units={job.settings.units} onFit={onFit} />}
      <div className="buttons">
        <button type="button" onClick={() => props.onScale(true)}>{tr`Add a known length`}</button>
        <button type="button" onClick={() => props.onScale(false)}>{tr`Set the scale again`}</button>
        {!props.drawn && <button type="button" onClick={props.onMarks}>{tr`Straighten it by marks`}</button>}
      </div>
    </>
  );
}

/** On a photo taken at an angle one scale holds only near the known length: how far is the user's to say. */
function Reach(props: {
  readonly fit: Extract<Fit, { kind: 'scale' }>;
  readonly units: Job['settings']['units'];
  readonly onFit: (fit: Fit) => void;
}) {
  const { fit, units } = props;
  const reason = fit.reach?.reason ?? tr`one scale holds only near the known length`;
  return (
    <div className="reach">
      <LengthField
        label={tr`Photo at an angle? Believe the scale within`}
        valueM={fit.reach?.distanceM ?? null}
        units={units}
        onEnter={(distanceM) => props.onFit({ ...fit, reach: { distanceM, reason } })}
      />
      {fit.reach && (
        <button type="button" onClick={() => props.onFit({ ...fit, reach: null })}>{tr`Everywhere`}</button>
      )}
    </div>
  );
}

/** What the fit makes of each thing that is known. */
function Checks({ solved, job }: SheetProps) {
  if (!solved || !('frame' in solved.fit) || solved.fit.redundancy <= 0) return null;
  const { units } = job.settings;
  return (
    <ChecksTable
      caption={tr`What is known, and what the sheet makes of it`}
      words={[tr`Known`, tr`Reads`]}
      rows={solved.fit.checks.map((c) => ({ ...c, key: c.name }))}
      units={units}
      offText={(offM) => lengthText(offM, units)}
    />
  );
}
