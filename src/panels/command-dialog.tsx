import { type KeyboardEvent, useRef, useState } from 'react';
import { tr } from '../words/tr.ts';
import { Modal } from './modal.tsx';

/** Something that can be done now. */
export interface Command {
  readonly id: string;
  /** What it does, in words to search by. */
  readonly words: string;
  /** Where it belongs, shown beside it. */
  readonly group: string;
  /** The key that does the same on the board. */
  readonly keys?: string;
  readonly run: () => void;
}

/** Everything that can be done, to be searched and done by keys alone. */
export function CommandDialog(props: {
  /** The commands of this moment; null while the list is closed. */
  readonly commands: readonly Command[] | null;
  readonly onClose: () => void;
}) {
  const { commands } = props;
  return (
    <Modal open={commands !== null} className="commands" label={tr`Commands`} onClose={props.onClose}>
      {commands && <Search commands={commands} onClose={props.onClose} />}
    </Modal>
  );
}

/**
 * What is in the open list. It is new each time, so that nothing of an earlier search is in the field
 * when the first letter of the next one arrives.
 */
function Search(props: { readonly commands: readonly Command[]; readonly onClose: () => void }) {
  const whole = useRef<HTMLDivElement>(null);
  const [sought, setSought] = useState('');
  const found = props.commands.filter((c) => matches(`${c.words} ${c.group}`, sought));
  const run = (command: Command) => {
    props.onClose();
    command.run();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const buttons = [...(whole.current?.querySelectorAll<HTMLElement>('input, li button') ?? [])];
    const at = buttons.indexOf(document.activeElement as HTMLElement);
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step) {
      event.preventDefault();
      buttons[Math.min(Math.max(at + step, 0), buttons.length - 1)]?.focus();
    } else if (event.key === 'Enter' && event.target instanceof HTMLInputElement && found[0]) {
      event.preventDefault();
      run(found[0]);
    }
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the arrow keys go from the field to the rows below it
    <div ref={whole} onKeyDown={onKeyDown}>
      <header>
        <label>
          <span className="unseen">{tr`What to do`}</span>
          <input
            type="search"
            placeholder={tr`What to do`}
            autoComplete="off"
            value={sought}
            onChange={(event) => setSought(event.target.value)}
          />
        </label>
        <button type="button" onClick={props.onClose}>{tr`Close`}</button>
      </header>
      <p className="unseen" role="status">
        {found.length === 1 ? tr`one command` : tr`${found.length} commands`}
      </p>
      <ul className="rows">
        {found.map((command) => (
          <li key={command.id}>
            <button type="button" onClick={() => run(command)}>
              <span>{command.words}</span>
              <span className="dim">{command.group}</span>
              {command.keys && <kbd>{command.keys}</kbd>}
            </button>
          </li>
        ))}
      </ul>
      {found.length === 0 && <p className="empty">{tr`Nothing here is called that; try another word.`}</p>}
    </div>
  );
}

/** Whether every word sought begins some word of a text. */
function matches(text: string, sought: string): boolean {
  const words = text.toLowerCase().split(/[^\p{L}\p{N}]+/u);
  return sought
    .toLowerCase()
    .split(/\s+/)
    .every((part) => words.some((word) => word.startsWith(part)));
}
