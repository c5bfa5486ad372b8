import { useEffect, useRef } from 'react';
import { type Quantity, workingLine } from '../working/quantity.ts';

/** The working of one number: formula, numbers put in, source, and each input opened further. */
export function WorkingDialog(props: { readonly of: Quantity | null; readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (props.of) dialog.current?.showModal();
    else dialog.current?.close();
  }, [props.of]);
  return (
    <dialog ref={dialog} className="working" aria-label="Working" onClose={props.onClose}>
      {props.of && (
        <>
          <header>
            <h2>{props.of.name}</h2>
            <button type="button" onClick={props.onClose}>
              Close
            </button>
          </header>
          <Trail of={props.of} open />
        </>
      )}
    </dialog>
  );
}

function Trail({ of, open }: { readonly of: Quantity; readonly open: boolean }) {
  const line = workingLine(of);
  const inputs = Object.values(of.inputs ?? {});
  const body = (
    <div className="trail">
      {of.formula && <p className="formula">{line.symbols}</p>}
      {line.numbers && <p className="formula">{of.formula ? `= ${line.numbers}` : line.numbers}</p>}
      <p className="result">= {line.result}</p>
      <p className="source">{line.source}</p>
      {line.note && <p className="disputed">{line.note}</p>}
      {inputs.map((input) => (
        <Trail key={`${input.symbol} ${input.name}`} of={input} open={false} />
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
