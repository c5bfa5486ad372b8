import { Fragment, memo } from 'react';
import type { ZoneCoating } from '../coating/coating.ts';
import { TEXTURE_NAMES } from '../coating/values.ts';
import type { Id } from '../job/types.ts';
import type { Results } from '../results.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { areaNumber, areaUnit, lengthNumber, lengthUnit, napText, type UnitSystem } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { type Quantity, total } from '../working/quantity.ts';
import { Working } from './fields.tsx';
import { TRAFFIC_WORDS } from './words.ts';

interface Row {
  readonly zone: ZoneTakeoff;
  readonly coats: ZoneCoating;
}

/** What rows are gathered by; null leaves them as they are. */
export type GroupBy = 'nap' | 'system' | 'slab' | null;

/** Rows of one nap, system or slab, with the name of what they share. */
export function groupRows(
  results: Results,
  by: GroupBy,
): Array<{ readonly name: string; readonly rows: readonly Row[] }> {
  const rows = results.takeoff.zones.map((zone, i): Row => ({ zone, coats: results.coating.zones[i]! }));
  if (!by) return [{ name: '', rows }];
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const key = groupName(results, row, by);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  const named = [...groups].map(([name, members]) => ({ name, rows: members }));
  return named.sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
}

/** The name of the group a zone belongs to. */
export function groupName(results: Results, row: Row, by: Exclude<GroupBy, null>): string {
  if (by === 'nap') return tr`${napText(row.coats.nap.value, results.job.settings.units)} nap`;
  if (by === 'system') return row.coats.system?.name ?? tr`not coated`;
  return results.takeoff.slabs.find((s) => s.id === row.zone.slabId)?.name ?? '';
}

const summed = { kind: 'derived', from: tr`summed over the zones` } as const;

/** Areas and edges of every zone; each number opens its working, each row selects its zone. */
export function ZonesTable(props: {
  readonly results: Results;
  readonly by: GroupBy;
  readonly units: UnitSystem;
  readonly selected: ReadonlySet<Id>;
  readonly onSelect: (zoneId: Id) => void;
  readonly onWorking: (q: Quantity) => void;
}) {
  const { results, by, units } = props;
  const groups = groupRows(results, by);
  const all = groups.flatMap((g) => g.rows);
  return (
    <div className="scroll">
      <table className="zones">
        <thead>
          <tr>
            <th scope="col">{tr`Zone`}</th>
            <th scope="col" className="num">{tr`Net ${areaUnit(units)}`}</th>
            <th scope="col" className="num">{tr`Out ${areaUnit(units)}`}</th>
            <th scope="col" className="num">{tr`Edge ${lengthUnit(units)}`}</th>
            <th scope="col" className="num">{tr`Cut-in ${lengthUnit(units)}`}</th>
          </tr>
        </thead>
        <tbody>
          {groups.map((group) => (
            <Fragment key={group.name}>
              {group.rows.map((row) => (
                <ZoneRow
                  key={row.zone.id}
                  zone={row.zone}
                  coats={row.coats}
                  units={units}
                  chosen={props.selected.has(row.zone.id)}
                  onSelect={props.onSelect}
                  onWorking={props.onWorking}
                />
              ))}
              {by && <SumRow name={group.name} rows={group.rows} units={units} onWorking={props.onWorking} />}
            </Fragment>
          ))}
        </tbody>
        <tfoot>
          <SumRow name={tr`All zones`} rows={all} units={units} onWorking={props.onWorking} />
        </tfoot>
      </table>
    </div>
  );
}

/** One zone's row; drawn again only when something of it has changed. */
const ZoneRow = memo(function ZoneRow(props: {
  readonly zone: ZoneTakeoff;
  readonly coats: ZoneCoating;
  readonly units: UnitSystem;
  readonly chosen: boolean;
  readonly onSelect: (zoneId: Id) => void;
  readonly onWorking: (q: Quantity) => void;
}) {
  const { zone, coats, units, onWorking } = props;
  return (
    <tr className={props.chosen ? 'chosen' : ''} onClick={() => props.onSelect(zone.id)}>
      <th scope="row">
        {/* A click on it is one on its row. */}
        <button type="button" className="link" aria-pressed={props.chosen}>
          {zone.name}
        </button>
        <span className="reason">
          {TEXTURE_NAMES[zone.surface.texture]}, {TRAFFIC_WORDS[zone.surface.traffic]},{' '}
          <Working of={coats.nap} text={tr`${napText(coats.nap.value, units)} nap`} onOpen={onWorking} />
        </span>
        {zone.voids.length > 0 && <span className="reason">{tr`without ${voidNames(zone)}`}</span>}
      </th>
      <td className="num">
        <Working of={zone.netArea} text={areaNumber(zone.netArea.value, units)} onOpen={onWorking} />
        <span className="reason">
          <Working of={zone.area95} text={`± ${areaNumber(zone.area95.value, units)}`} onOpen={onWorking} />
        </span>
      </td>
      <td className="num">
        <Working of={zone.netArea.inputs!.V!} text={areaNumber(zone.voidAreaM2, units)} onOpen={onWorking} />
      </td>
      <td className="num">
        <Working of={zone.boundary} text={lengthNumber(zone.boundary.value, units)} onOpen={onWorking} />
        <EdgeKinds zone={zone} units={units} />
      </td>
      <td className="num">
        <Working of={zone.cutIn} text={lengthNumber(zone.cutIn.value, units)} onOpen={onWorking} />
      </td>
    </tr>
  );
});

const voidNames = (zone: ZoneTakeoff): string =>
  zone.voids.length > 3 ? tr`${zone.voids.length} voids` : zone.voids.map((v) => v.name).join(', ');

const KIND_WORDS = { side: tr`sides`, slab: tr`slabs`, cut: tr`cuts`, void: tr`voids` } as const;

/** The boundary by what makes it. */
function EdgeKinds({ zone, units }: { readonly zone: ZoneTakeoff; readonly units: UnitSystem }) {
  const kinds = (['side', 'slab', 'cut', 'void'] as const)
    .map((kind) => ({
      kind,
      lengthM: zone.stretches.filter((s) => s.kind === kind).reduce((sum, s) => sum + s.lengthM, 0),
    }))
    .filter(({ lengthM }) => lengthM > 0);
  if (kinds.length < 2) return null;
  return kinds.map(({ kind, lengthM }) => (
    <span key={kind} className="reason">
      {KIND_WORDS[kind]} {lengthNumber(lengthM, units)}
    </span>
  ));
}

function SumRow(props: {
  readonly name: string;
  readonly rows: readonly Row[];
  readonly units: UnitSystem;
  readonly onWorking: (q: Quantity) => void;
}) {
  const { rows, units, onWorking } = props;
  const sum = (name: string, symbol: string, unit: string, pick: (row: Row) => Quantity) =>
    total(
      name,
      symbol,
      unit,
      rows.map((row) => ({ ...pick(row), name: `${row.zone.name}: ${pick(row).name}` })),
      summed,
    );
  const area = sum(tr`net area, ${props.name}`, 'A', 'm²', (r) => r.zone.netArea);
  const cutIn = sum(tr`cut-in, ${props.name}`, 'c', 'm', (r) => r.zone.cutIn);
  const edge = sum(tr`boundary, ${props.name}`, 'B', 'm', (r) => r.zone.boundary);
  const out = sum(tr`taken out, ${props.name}`, 'V', 'm²', (r) => r.zone.netArea.inputs!.V!);
  return (
    <tr className="sum">
      <th scope="row">{props.name}</th>
      <td className="num">
        <Working of={area} text={areaNumber(area.value, units)} onOpen={onWorking} />
      </td>
      <td className="num">
        <Working of={out} text={areaNumber(out.value, units)} onOpen={onWorking} />
      </td>
      <td className="num">
        <Working of={edge} text={lengthNumber(edge.value, units)} onOpen={onWorking} />
      </td>
      <td className="num">
        <Working of={cutIn} text={lengthNumber(cutIn.value, units)} onOpen={onWorking} />
      </td>
    </tr>
  );
}
