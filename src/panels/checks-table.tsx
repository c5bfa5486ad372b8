import type { FitCheck } from '../takeoff/zone.ts';
import { lengthText, type UnitSystem } from '../units/format.ts';
import { tr } from '../words/tr.ts';

/** One thing that is known, and how to leave it out where that can be done. */
export interface CheckRow extends FitCheck {
  readonly key: string;
  readonly onLeaveOut?: () => void;
}

/** What is known, what all of it together makes of each, and how far the two are apart. */
export function ChecksTable(props: {
  readonly caption: string;
  /** Words for what is known, and for what is made of it. */
  readonly words: readonly [known: string, made: string];
  readonly rows: readonly CheckRow[];
  readonly units: UnitSystem;
  /** How a difference is shown. */
  readonly offText: (offM: number) => string;
}) {
  const { rows, units, words } = props;
  const canLeaveOut = rows.some((r) => r.onLeaveOut);
  return (
    <div className="scroll">
      <table className="zones">
        <caption>{props.caption}</caption>
        <thead>
          <tr>
            <th scope="col">{words[0]}</th>
            <th scope="col" className="num">{tr`Entered`}</th>
            <th scope="col" className="num">
              {words[1]}
            </th>
            <th scope="col" className="num">{tr`Off by`}</th>
            {canLeaveOut && (
              <th scope="col">
                <span className="unseen">{tr`Leave out`}</span>
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {rows.map((r) => (
            <tr key={r.key} className={r.suspect ? 'wrong' : ''}>
              <th scope="row">{r.name}</th>
              <td className="num">{r.knownM === null ? '' : lengthText(r.knownM, units)}</td>
              <td className="num">{r.readM === null ? '' : lengthText(r.readM, units)}</td>
              <td className="num">
                {props.offText(r.offM)}
                {r.suspect && <span className="reason">{tr`look again`}</span>}
              </td>
              {r.onLeaveOut && (
                <td>
                  <button
                    type="button"
                    aria-label={tr`Leave out ${r.name}`}
                    onClick={r.onLeaveOut}
                  >{tr`Leave out`}</button>
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
