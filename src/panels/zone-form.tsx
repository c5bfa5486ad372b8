import { Fragment } from 'react';
import type { Frame } from '../../geometry/index.ts';
import type { Edit } from '../job/edits/index.ts';
import type { Id, Job, Slab, Surface } from '../job/types.ts';
import { stretchName } from '../takeoff/describe.ts';
import type { StretchTakeoff, ZoneTakeoff } from '../takeoff/zone.ts';
import { areaNumber, areaUnit, lengthNumber, lengthUnit, type UnitSystem } from '../units/format.ts';
import type { SheetPoint } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';
import { TurnSection } from './arrange-section.tsx';
import { zoneDescribed } from './describe-zone.ts';
import { Drawer } from './drawer.tsx';
import { Choice, LengthField, NumberField, Section, Switch, TextField, Working } from './fields.tsx';
import { OutlineNumbers } from './outline-numbers.tsx';
import {
  BASE_OPTIONS,
  BEYOND_OPTIONS,
  CONDITION_OPTIONS,
  FINISH_OPTIONS,
  PREPARATION_OPTIONS,
  PRIMER_OPTIONS,
  SYSTEM_OPTIONS,
  TEXTURE_OPTIONS,
  TRAFFIC_OPTIONS,
} from './words.ts';

/** What the forms of a selection say back. */
export interface FormProps {
  readonly job: Job;
  readonly units: UnitSystem;
  readonly newId: (prefix: string) => Id;
  readonly onChange: (edits: readonly Edit[], merge?: string) => void;
  readonly onDelete: () => void;
}

/** The zone in hand: what it is, what it gets, and what stands along its edges. */
export function ZoneForm(
  props: FormProps & {
    readonly zone: ZoneTakeoff;
    readonly siblings: number;
    readonly anchor: SheetPoint;
    /** Sheet to ground; null while the sheet has no scale. */
    readonly frame: Frame | null;
    readonly onWorking: (q: Quantity) => void;
  },
) {
  const { job, zone, units, siblings, onChange } = props;
  const slab = job.slabs[zone.slabId]!;
  const describe = (
    change: { readonly name?: string; readonly surface?: Partial<Surface> },
    merge?: string,
  ) => onChange([zoneDescribed(job, zone, siblings, props.anchor, props.newId, change)], merge);
  const s = zone.surface;
  return (
    <Section
      title={zone.name || tr`Zone`}
      actions={<button type="button" onClick={props.onDelete}>{tr`Delete slab`}</button>}
    >
      <div className="fields">
        <TextField
          label={tr`Name`}
          value={siblings === 1 && !zone.tagId ? slab.name : (zone.tagId && job.tags[zone.tagId]?.name) || ''}
          onChange={(name) => describe({ name }, `name in ${slab.id}`)}
        />
        <Choice
          label={tr`Texture`}
          value={s.texture}
          options={TEXTURE_OPTIONS}
          onChange={(texture) => describe({ surface: { texture } })}
        />
        <Choice
          label={tr`Traffic`}
          value={s.traffic}
          options={TRAFFIC_OPTIONS}
          onChange={(traffic) => describe({ surface: { traffic } })}
        />
        <Choice
          label={tr`Concrete`}
          value={s.condition}
          options={CONDITION_OPTIONS}
          onChange={(condition) => describe({ surface: { condition } })}
        />
        <Choice
          label={tr`System`}
          value={s.systemId ?? ''}
          options={SYSTEM_OPTIONS}
          onChange={(id) => describe({ surface: { systemId: id || null } })}
        />
        <TextField
          label={tr`Colour`}
          value={s.colour}
          onChange={(colour) => describe({ surface: { colour } }, `colour in ${slab.id}`)}
        />
        <Switch
          label={tr`Grip additive in the last coat`}
          on={s.grip}
          onChange={(grip) => describe({ surface: { grip } })}
        />
        <CoatFields surface={s} describe={(surface) => describe({ surface })} />
        <NumberField
          label={tr`Slope of the slab (rise over run)`}
          value={slab.slope}
          unit="1"
          low={0}
          high={2}
          onEnter={(slope) => onChange([{ type: 'update-slab', args: { slabId: slab.id, slope } }])}
        />
      </div>
      <h3>{tr`Sizes`}</h3>
      <dl className="sizes">
        {sizesOf(zone, units).map(([words, quantity, text]) => (
          <Fragment key={words}>
            <dt>{words}</dt>
            <dd className="num">
              <Working of={quantity} text={text} onOpen={props.onWorking} />
            </dd>
          </Fragment>
        ))}
      </dl>
      <h3>{tr`Edges`}</h3>
      <table className="edges">
        <thead>
          <tr>
            <th scope="col">{tr`Along`}</th>
            <th scope="col" className="num">
              {lengthUnit(units)}
            </th>
            <th scope="col">{tr`Beyond it`}</th>
            <th scope="col">{tr`Treated`}</th>
          </tr>
        </thead>
        <tbody>
          {zone.stretches.map((stretch) => (
            <tr key={`${stretch.kind} ${stretch.ref} ${stretch.refName}`}>
              <th scope="row">{stretch.kind === 'side' ? stretch.refName : stretchName(stretch)}</th>
              <td className="num">{lengthNumber(stretch.lengthM, units)}</td>
              <td>
                {stretch.kind === 'side' && (
                  <select
                    aria-label={tr`What stands beyond ${stretch.refName}`}
                    value={stretch.beyond ?? ''}
                    onChange={(event) => {
                      const beyond = BEYOND_OPTIONS.find(([v]) => v === event.target.value)?.[0] || null;
                      onChange([
                        { type: 'update-side', args: { slabId: slab.id, cornerId: stretch.ref, beyond } },
                      ]);
                    }}
                  >
                    {BEYOND_OPTIONS.map(([value, words]) => (
                      <option key={value} value={value}>
                        {words}
                      </option>
                    ))}
                  </select>
                )}
                <WayOut {...props} stretch={stretch} cornerId={cornerOf(slab, stretch)} />
                {(stretch.kind === 'side' || stretch.kind === 'slab') && (
                  <FaceUp {...props} stretch={stretch} cornerId={cornerOf(slab, stretch)} />
                )}
              </td>
              <td>
                {[stretch.brushed ? tr`cut in` : '', stretch.masked ? tr`taped` : '']
                  .filter(Boolean)
                  .join(', ') || tr`rolled`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {props.frame && (
        <>
          <OutlineNumbers {...props} slab={slab} frame={props.frame} />
          <TurnSection {...props} slab={slab} frame={props.frame} />
        </>
      )}
    </Section>
  );
}

/** What of a coat is seldom said: preparation, primer, base, tint and finish. */
function CoatFields(props: {
  readonly surface: Surface;
  readonly describe: (change: Partial<Surface>) => void;
}) {
  const { surface: s, describe } = props;
  return (
    <Drawer name="coat fields" summary={tr`Preparation, primer and tint`}>
      <div className="fields">
        <Choice
          label={tr`Preparation`}
          value={s.preparation ?? ''}
          options={PREPARATION_OPTIONS}
          onChange={(preparation) => describe({ preparation })}
        />
        <Choice
          label={tr`Primer`}
          value={s.primer ?? ''}
          options={PRIMER_OPTIONS}
          onChange={(primer) => describe({ primer })}
        />
        <Choice
          label={tr`Base of the colour`}
          value={s.base ?? ''}
          options={BASE_OPTIONS}
          onChange={(base) => describe({ base })}
        />
        <NumberField
          label={tr`Strength of the tint`}
          value={s.tintPct ?? 100}
          unit="%"
          low={0}
          high={400}
          onEnter={(tintPct) => describe({ tintPct })}
        />
        <Choice
          label={tr`Finish`}
          value={s.finish ?? ''}
          options={FINISH_OPTIONS}
          onChange={(finish) => describe({ finish })}
        />
      </div>
    </Drawer>
  );
}

/** The zone's areas besides the net one, each with its working. */
function sizesOf(
  zone: ZoneTakeoff,
  units: UnitSystem,
): Array<readonly [words: string, quantity: Quantity, text: string]> {
  const area = (q: Quantity) => `${areaNumber(q.value, units)} ${areaUnit(units)}`;
  const rows: Array<readonly [string, Quantity, string]> = [
    [tr`Net area`, zone.netArea, area(zone.netArea)],
    [tr`within (95 %)`, zone.area95, `± ${area(zone.area95)}`],
    [tr`Area for payment`, zone.paymentArea, area(zone.paymentArea)],
    [tr`Brushed`, zone.brushArea, area(zone.brushArea)],
    [tr`Rolled`, zone.rollerArea, area(zone.rollerArea)],
  ];
  if (zone.facesUp.value > 0) {
    rows.push([tr`Faces up`, zone.facesUp, area(zone.facesUp)]);
    rows.push([tr`Coated in all`, zone.coatedArea, area(zone.coatedArea)]);
  }
  return rows;
}

/** The corner that the side of a stretch leaves from; a stretch along another slab is named for that slab instead. */
const cornerOf = (slab: Slab, stretch: StretchTakeoff): Id | null =>
  stretch.kind === 'side' ? stretch.ref : stretch.side === null ? null : slab.corners[stretch.side]!.cornerId;

/** Whether a painter can step off over a side. */
function WayOut(
  props: FormProps & {
    readonly zone: ZoneTakeoff;
    readonly stretch: StretchTakeoff;
    readonly cornerId: Id | null;
  },
) {
  const { job, zone, stretch, cornerId, onChange } = props;
  if (!cornerId || stretch.side === null) return null;
  const exit = job.slabs[zone.slabId]!.corners[stretch.side]?.exit === true;
  return (
    <button
      type="button"
      className="link"
      aria-pressed={exit}
      onClick={() =>
        onChange([{ type: 'update-side', args: { slabId: zone.slabId, cornerId, exit: !exit } }])
      }
    >
      {exit ? tr`way out ✓` : tr`+ way out`}
    </button>
  );
}

/** A riser, kerb face or slab edge along a side that is coated too. */
function FaceUp(
  props: FormProps & {
    readonly zone: ZoneTakeoff;
    readonly stretch: StretchTakeoff;
    readonly cornerId: Id | null;
  },
) {
  const { stretch, zone, cornerId, onChange, units } = props;
  if (!cornerId) return null;
  const set = (faceUpM: number) =>
    onChange([{ type: 'update-side', args: { slabId: zone.slabId, cornerId, faceUpM } }]);
  if (stretch.faceUpM === 0) {
    return <button type="button" className="link" onClick={() => set(USUAL_FACE_M)}>{tr`+ face up`}</button>;
  }
  return (
    <>
      <LengthField label={tr`Face, height`} valueM={stretch.faceUpM} units={units} onEnter={set} />
      <button type="button" className="link" onClick={() => set(0)}>{tr`No face`}</button>
    </>
  );
}

/** A usual riser to begin with; common practice, no source. */
const USUAL_FACE_M = 0.15;
