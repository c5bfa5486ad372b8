import { useState } from 'react';
import { EXPORTS, type Export } from '../exports/index.ts';
import { PAPER_IDS, PAPERS_TO_CHOOSE, type PaperId } from '../exports/papers/paper.ts';
import { tr } from '../words/tr.ts';
import { Section, Switch } from './fields.tsx';

const READERS = {
  customer: tr`for the customer`,
  supplier: tr`for the supplier`,
  crew: tr`for the crew`,
  all: tr`for everybody`,
} as const;

/** What each reader acts on, and nothing that is not theirs. */
const PRESETS: ReadonlyArray<readonly [words: string, ids: readonly PaperId[]]> = [
  [tr`Customer`, ['quote', 'drawing', 'safety']],
  [tr`Supplier`, ['order']],
  [tr`Crew`, ['drawing', 'tables', 'mixes', 'days', 'safety']],
  [tr`Handover`, ['handover']],
];

/** What is being written, by its file's ending, and how it is stopped. */
interface Writing {
  readonly empty: boolean;
  readonly writing: string | null;
  readonly onStop: () => void;
}

const Stop = ({ onStop }: Pick<Writing, 'onStop'>) => (
  <button type="button" onClick={onStop}>{tr`Stop writing`}</button>
);

/** Papers to choose from, put together in one document. */
export function PapersSection(props: Writing & { readonly onWrite: (papers: ReadonlySet<PaperId>) => void }) {
  const { empty, writing } = props;
  const [wanted, setWanted] = useState<ReadonlySet<PaperId>>(
    new Set(PAPER_IDS.filter((id) => id !== 'handover')),
  );
  const turn = (id: PaperId, on: boolean) =>
    setWanted(new Set(PAPER_IDS.filter((k) => (k === id ? on : wanted.has(k)))));
  return (
    <Section title={tr`Papers`}>
      {empty && <p className="empty">{tr`There is nothing to hand over yet: trace a slab first.`}</p>}
      <div className="buttons">
        {PRESETS.map(([words, ids]) => (
          <button key={words} type="button" className="link" onClick={() => setWanted(new Set(ids))}>
            {words}
          </button>
        ))}
      </div>
      <div className="switches">
        {PAPERS_TO_CHOOSE.map((kind) => (
          <Switch
            key={kind.id}
            label={`${kind.title}, ${READERS[kind.reader]}`}
            on={wanted.has(kind.id)}
            onChange={(on) => turn(kind.id, on)}
          />
        ))}
      </div>
      <div className="buttons">
        <button
          type="button"
          className="main"
          disabled={empty || wanted.size === 0 || writing !== null}
          onClick={() => props.onWrite(wanted)}
        >
          {writing === 'pdf' ? tr`Writing the papers …` : tr`Write the papers (PDF)`}
        </button>
        {writing === 'pdf' && <Stop onStop={props.onStop} />}
      </div>
    </Section>
  );
}

/** Files for other programs, and the job itself. */
export function FilesSection(
  props: Writing & { readonly onExport: (kind: Export) => void; readonly onSave: () => void },
) {
  const { empty, writing } = props;
  return (
    <Section title={tr`For other programs`}>
      <div className="buttons column">
        {EXPORTS.filter((e) => e.ending !== 'pdf').map((kind) => (
          <button
            key={kind.ending}
            type="button"
            disabled={empty || writing !== null}
            onClick={() => props.onExport(kind)}
          >
            {writing === kind.ending ? tr`Writing …` : kind.label}
          </button>
        ))}
        {writing !== null && writing !== 'pdf' && <Stop onStop={props.onStop} />}
        <button type="button" onClick={props.onSave}>{tr`The job itself, pictures inside`}</button>
      </div>
    </Section>
  );
}
