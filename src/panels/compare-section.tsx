import { useMemo, useState } from 'react';
import { type Compared, compared } from '../compare.ts';
import { applyEdits, type Edit } from '../job/edits/index.ts';
import { type Variant, variantEdits } from '../job/variant.ts';
import { type Results, results } from '../results.ts';
import { type UnitSystem, volumeNumber, volumeUnit } from '../units/format.ts';
import { moneyText } from '../units/money.ts';
import { tr } from '../words/tr.ts';
import { Choice, Section } from './fields.tsx';
import { SYSTEM_OPTIONS } from './words.ts';

const SAME = tr`as it is`;

/** The job beside another way to coat it: what that would cost, take and last. */
export function CompareSection(props: {
  readonly results: Results;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { results: now, onChange } = props;
  const [systemId, setSystem] = useState('');
  const [grip, setGrip] = useState<'' | 'with' | 'without'>('');
  const asked = systemId !== '' || grip !== '';
  const variant = useMemo<Variant>(
    () => ({ ...(systemId ? { systemId } : {}), ...(grip ? { grip: grip === 'with' } : {}) }),
    [systemId, grip],
  );
  const edits = useMemo(() => variantEdits(now.job, variant), [now.job, variant]);
  const other = useMemo(() => (asked ? applyEdits(now.job, edits) : null), [now.job, edits, asked]);
  const { units } = now.job.settings;
  return (
    <Section title={tr`Compare with another way`}>
      <div className="fields">
        <Choice
          label={tr`All that is coated gets`}
          value={systemId}
          options={[['', SAME], ...SYSTEM_OPTIONS.filter(([id]) => id !== '')]}
          onChange={setSystem}
        />
        <Choice
          label={tr`Grip additive`}
          value={grip}
          options={[
            ['', SAME],
            ['with', tr`with, everywhere`],
            ['without', tr`without`],
          ]}
          onChange={setGrip}
        />
      </div>
      {other?.ok && (
        <>
          <div className="scroll">
            <table className="totals">
              <thead>
                <tr>
                  <th scope="col">{tr`What`}</th>
                  <th scope="col" className="num">{tr`Now`}</th>
                  <th scope="col" className="num">{tr`Then`}</th>
                  <th scope="col" className="num">{tr`Difference`}</th>
                </tr>
              </thead>
              <tbody>
                {compared(now, results(other.value)).map((line) => (
                  <tr key={line.what}>
                    <th scope="row">{headOf(line, units)}</th>
                    {cellsOf(line, units).map((text, i) => (
                      <td key={['now', 'then', 'difference'][i]} className="num">
                        {text}
                      </td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <p className="dim">{tr`Days and years are estimates from the values behind the numbers, not promises.`}</p>
          <button type="button" onClick={() => onChange(edits)}>{tr`Change the job to this`}</button>
        </>
      )}
    </Section>
  );
}

function headOf(line: Compared, units: UnitSystem): string {
  if (line.kind !== 'number') return line.what;
  // Days say so themselves.
  if (line.unit === 'days') return line.what;
  return `${line.what}, ${line.unit === 'L' ? volumeUnit(units) : line.unit}`;
}

const UNKNOWN = '—';

function cellsOf(line: Compared, units: UnitSystem): readonly [string, string, string] {
  if (line.kind === 'time') {
    const text = (at: string | null) => at?.replace('T', ' ') ?? UNKNOWN;
    return [text(line.a), text(line.b), line.a === line.b ? tr`none` : ''];
  }
  const { a, b } = line;
  const text = (value: number) =>
    line.kind === 'money'
      ? moneyText(value)
      : line.unit === 'L'
        ? volumeNumber(value, units)
        : value.toFixed(line.unit === 'h' ? 1 : 0);
  const difference =
    a === null || b === null ? UNKNOWN : `${b > a ? '+' : b < a ? '−' : ''}${text(Math.abs(b - a))}`;
  return [a === null ? tr`no price yet` : text(a), b === null ? tr`no price yet` : text(b), difference];
}
