import { useState } from 'react';
import type { Remark } from '../job/checks/index.ts';
import type { Edit } from '../job/edits/index.ts';
import type { Id } from '../job/types.ts';
import { tr } from '../words/tr.ts';

const SEVERITY_WORDS: Readonly<Record<Remark['severity'], string>> = {
  stop: tr`Stop`,
  mind: tr`Check`,
  note: tr`Next`,
};

/** More than this at once hide what is below them. */
const SHOWN = 8;

/** What a person should know about the job, with the mends that are one tap away. */
export function Remarks(props: {
  readonly remarks: readonly Remark[];
  readonly onShow: (where: Id) => void;
  readonly onFix: (edit: Edit) => void;
}) {
  const [all, setAll] = useState(false);
  if (props.remarks.length === 0) return null;
  const shown = all ? props.remarks : props.remarks.slice(0, SHOWN);
  const more = props.remarks.length - shown.length;
  return (
    <ul className="remarks" aria-label={tr`Remarks`}>
      {shown.map((r) => (
        <li key={`${r.code} ${r.where} ${r.sentence}`} className={r.severity}>
          <strong>{SEVERITY_WORDS[r.severity]}.</strong> {r.sentence}{' '}
          {r.where && r.severity !== 'note' && (
            <button type="button" className="link" onClick={() => props.onShow(r.where!)}>{tr`Show`}</button>
          )}
          {r.fixes.map((fix) => (
            <button key={fix.label} type="button" className="link" onClick={() => props.onFix(fix.edit)}>
              {fix.label}
            </button>
          ))}
        </li>
      ))}
      {more > 0 && (
        <li className="note">
          <button type="button" className="link" onClick={() => setAll(true)}>{tr`Show ${more} more`}</button>
        </li>
      )}
    </ul>
  );
}
