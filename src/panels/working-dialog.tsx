import { ALL_VALUES } from '../coating/systems/index.ts';
import { DAY_VALUES, WORK_VALUES } from '../days/values.ts';
import { QUOTE_VALUES } from '../quote/values.ts';
import { plainNumber, unitText } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { type Quantity, workingLine } from '../working/quantity.ts';
import { sourceText } from '../working/source.ts';
import { Modal } from './modal.tsx';

/** The working of one number: formula, numbers put in, source, and each input opened further. */
export function WorkingDialog(props: {
  readonly of: Quantity | null;
  readonly onClose: () => void;
  /** Puts another value in force, by its key. */
  readonly onChoose: (key: string, value: number) => void;
}) {
  return (
    <Modal open={props.of !== null} className="working" label={tr`Working`} onClose={props.onClose}>
      {props.of && (
        <>
          <header>
            <h2>{props.of.name}</h2>
            <button type="button" onClick={props.onClose}>{tr`Close`}</button>
          </header>
          <Trail of={props.of} open onChoose={props.onChoose} />
        </>
      )}
    </Modal>
  );
}

function Trail(props: {
  readonly of: Quantity;
  readonly open: boolean;
  readonly onChoose: (key: string, value: number) => void;
}) {
  const { of, open, onChoose } = props;
  const line = workingLine(of);
  const inputs = Object.values(of.inputs ?? {});
  const body = (
    <div className="trail">
      {of.formula && <p className="formula">{line.symbols}</p>}
      {line.numbers && <p className="formula">{of.formula ? `= ${line.numbers}` : line.numbers}</p>}
      <p className="result">= {line.result}</p>
      <p className="source">{line.source}</p>
      {line.note && <p className="disputed">{line.note}</p>}
      {of.key && <Choices of={of} choose={(value) => onChoose(of.key!, value)} />}
      {inputs.map((input) => (
        <Trail key={`${input.symbol} ${input.name}`} of={input} open={false} onChoose={onChoose} />
      ))}
    </div>
  );
  return open ? (
    body
  ) : (
    <details>
      <summary>
        {of.name} <span className="summary">{line.result}</span>
      </summary>
      {body}
    </details>
  );
}

/** What sources that disagree say about a value, to choose from. */
function Choices(props: { readonly of: Quantity; readonly choose: (value: number) => void }) {
  const choices = VALUES.get(props.of.key!)?.choices ?? [];
  return (
    <span className="choices">
      {choices
        .filter((c) => c.value !== props.of.value)
        .map((c) => (
          <button
            key={`${c.value} ${sourceText(c.source)}`}
            type="button"
            onClick={() => props.choose(c.value)}
          >
            {tr`Use ${plainNumber(c.value)} ${props.of.unit === '1' ? '' : unitText(props.of.unit)}`}{' '}
            <span className="dim">{sourceText(c.source)}</span>
          </button>
        ))}
    </span>
  );
}

const VALUES = new Map(
  [...ALL_VALUES, ...QUOTE_VALUES, ...DAY_VALUES, ...WORK_VALUES].map((d) => [d.key, d]),
);
