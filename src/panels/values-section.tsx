import type { Edit } from '../job/edits/index.ts';
import type { Job } from '../job/types.ts';
import { plainNumber, unitText } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import type { DefaultValue } from '../working/default-value.ts';
import { sourceText } from '../working/source.ts';
import { Drawer } from './drawer.tsx';
import { NumberField } from './fields.tsx';

/** Values to look at and replace, by their groups; where sources disagree, what each of them says. */
export function ValuesTable(props: {
  readonly job: Job;
  readonly values: readonly DefaultValue[];
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const groups = new Map<string, DefaultValue[]>();
  for (const d of props.values) groups.set(d.group, [...(groups.get(d.group) ?? []), d]);
  return (
    <>
      {[...groups].map(([group, values]) => {
        const own = values.filter((d) => props.job.values[d.key] !== undefined).length;
        return (
          <Drawer
            name={`values ${group}`}
            key={group}
            summary={
              <>
                {group}
                <span className="dim"> {own > 0 ? tr`${own} of your own` : ''}</span>
              </>
            }
          >
            <div className="scroll">
              <table className="values">
                <thead>
                  <tr>
                    <th scope="col">{tr`Value`}</th>
                    <th scope="col">{tr`In use`}</th>
                    <th scope="col">{tr`Source`}</th>
                  </tr>
                </thead>
                <tbody>
                  {values.map((d) => (
                    <ValueRow
                      key={d.key}
                      units={props.job.settings.units}
                      d={d}
                      own={props.job.values[d.key]}
                      onChange={props.onChange}
                    />
                  ))}
                </tbody>
              </table>
            </div>
          </Drawer>
        );
      })}
    </>
  );
}

function ValueRow(props: {
  readonly units: Job['settings']['units'];
  readonly d: DefaultValue;
  readonly own: number | undefined;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { d, own } = props;
  const set = (value: number | null) =>
    props.onChange([{ type: 'set-value', args: { key: d.key, value: value === d.value ? null : value } }]);
  const unit = d.unit === '1' ? '' : ` ${unitText(d.unit)}`;
  return (
    <tr>
      <th scope="row">
        {d.name}
        {d.note && <span className="reason">{d.note}</span>}
        {d.choices && (
          <span className="choices">
            {d.choices.map((c) => (
              <button
                key={`${c.value} ${sourceText(c.source)}`}
                type="button"
                aria-pressed={(own ?? d.value) === c.value}
                onClick={() => set(c.value)}
              >
                {plainNumber(c.value)}
                {unit} <span className="dim">{sourceText(c.source)}</span>
              </button>
            ))}
          </span>
        )}
      </th>
      <td>
        <NumberField
          label={`${d.group}: ${d.name}`}
          hideLabel
          value={own ?? d.value}
          unit={d.unit}
          low={d.low}
          high={d.high}
          units={props.units}
          onEnter={set}
        />
      </td>
      <td>
        {own === undefined ? (
          sourceText(d.source)
        ) : (
          <button type="button" onClick={() => set(null)}>{tr`Back to ${plainNumber(d.value)}`}</button>
        )}
      </td>
    </tr>
  );
}
