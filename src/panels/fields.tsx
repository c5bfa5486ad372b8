import { type ReactNode, useEffect, useId, useState } from 'react';
import { sentence } from '../problem.ts';
import { lengthText, shownUnit, type UnitSystem } from '../units/format.ts';
import { parseLength } from '../units/length.ts';
import { type Cents, moneyText, parseMoney } from '../units/money.ts';
import type { Metres } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';

/** A number that opens its working. */
export function Working(props: {
  readonly of: Quantity;
  readonly text: string;
  readonly onOpen: (q: Quantity) => void;
}) {
  return (
    <button
      type="button"
      className="number"
      title={tr`How ${props.of.name} is worked out`}
      onClick={(event) => {
        event.stopPropagation();
        props.onOpen(props.of);
      }}
    >
      {props.text}
    </button>
  );
}

/** A labelled choice from a list. */
export function Choice<T extends string>(props: {
  readonly label: string;
  readonly value: T;
  readonly options: ReadonlyArray<readonly [value: T, words: string]>;
  readonly onChange: (value: T) => void;
}) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{props.label}</label>
      <select id={id} value={props.value} onChange={(event) => props.onChange(event.target.value as T)}>
        {props.options.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}

/** A labelled line of text, handed over as it is typed. */
export function TextField(props: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly long?: boolean;
}) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{props.label}</label>
      {props.long ? (
        <textarea
          id={id}
          rows={3}
          maxLength={5000}
          value={props.value}
          onChange={(e) => props.onChange(e.target.value)}
        />
      ) : (
        <input
          id={id}
          type="text"
          maxLength={500}
          value={props.value}
          onChange={(e) => props.onChange(e.target.value)}
        />
      )}
    </div>
  );
}

/** A labelled switch. */
export function Switch(props: {
  readonly label: string;
  readonly on: boolean;
  readonly onChange: (on: boolean) => void;
}) {
  return (
    <label className="switch">
      <input type="checkbox" checked={props.on} onChange={(event) => props.onChange(event.target.checked)} />
      {props.label}
    </label>
  );
}

/**
 * A length as people type it. Handed over on Enter or when the field is left; what cannot be read is said below
 * the field and stays there to be mended.
 */
export function LengthField(props: {
  readonly label: string;
  readonly valueM: Metres | null;
  readonly units: UnitSystem;
  /** @param left whether the field was left, rather than the length handed over by Enter */
  readonly onEnter: (lengthM: Metres, left: boolean) => void;
  readonly autoFocus?: boolean;
  readonly placeholder?: string;
}) {
  const { valueM, units } = props;
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState('');
  const shown = valueM === null ? '' : lengthText(valueM, units);
  const enter = (leaving: boolean) => {
    if (typed === null || typed.trim() === '') {
      setTyped(null);
      setWrong('');
      return;
    }
    const length = parseLength(typed, units === 'us' ? 'ft' : 'm');
    if (!length.ok) {
      setWrong(sentence(length.problem));
      return;
    }
    setWrong('');
    setTyped(null);
    if (!leaving || valueM !== null) props.onEnter(length.value, leaving);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{props.label}</label>
      <input
        id={id}
        type="text"
        inputMode="text"
        autoComplete="off"
        // biome-ignore lint/a11y/noAutofocus: the field appears because a length is asked for now
        autoFocus={props.autoFocus ?? false}
        placeholder={props.placeholder ?? ''}
        value={typed ?? shown}
        aria-invalid={wrong !== ''}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onFocus={(event) => event.target.select()}
        onChange={(event) => setTyped(event.target.value)}
        onKeyDown={(event) => {
          if (event.key === 'Enter') enter(false);
          if (event.key === 'Escape') {
            setTyped(null);
            setWrong('');
          }
        }}
        onBlur={() => enter(true)}
      />
      {wrong && (
        <p className="wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}

/** A plain number with its range, or none yet. Handed over on Enter or when the field is left. */
export function NumberField(props: {
  readonly label: string;
  readonly value: number | null;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly onEnter: (value: number) => void;
  /** What an emptied field means; without it, emptying is a mistake. */
  readonly onClear?: () => void;
  readonly hideLabel?: boolean;
  /** In whose units it is shown and typed; ours where nothing is said. */
  readonly units?: UnitSystem;
}) {
  const { label } = props;
  const as = shownUnit(props.unit, props.units ?? 'metric');
  const value = props.value === null ? null : as.show(props.value);
  const [low, high] = [as.show(props.low), as.show(props.high)].map((x) => Number(x.toPrecision(6))) as [
    number,
    number,
  ];
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState('');
  // A value that changed elsewhere, by undo say, replaces what was typed.
  // biome-ignore lint/correctness/useExhaustiveDependencies: value is the trigger
  useEffect(() => setTyped(null), [value]);
  const enter = () => {
    if (typed === null) return;
    if (typed.trim() === '' && (props.onClear || value === null)) {
      setWrong('');
      setTyped(null);
      if (value !== null) props.onClear?.();
      return;
    }
    // A comma before three digits may stand for thousands: nobody can tell.
    const unclear = /^\d{1,3},\d{3}$/.test(typed.trim());
    const number = unclear ? Number.NaN : Number(typed.trim().replace(',', '.'));
    if (typed.trim() === '' || !Number.isFinite(number) || number < low || number > high) {
      setWrong(sentence({ code: 'value/out-of-range', what: label, low, high }));
      return;
    }
    setWrong('');
    setTyped(null);
    if (number !== value) props.onEnter(as.unit === props.unit ? number : as.read(number));
  };
  return (
    <div className={props.hideLabel ? 'field bare' : 'field'}>
      <label htmlFor={id}>{props.hideLabel ? <span className="unseen">{label}</span> : label}</label>
      <span className="with-unit">
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          value={typed ?? (value === null ? '' : String(Number(value.toPrecision(6))))}
          aria-invalid={wrong !== ''}
          aria-describedby={wrong ? `${id}-wrong` : undefined}
          onFocus={(event) => event.target.select()}
          onChange={(event) => setTyped(event.target.value)}
          onKeyDown={(event) => event.key === 'Enter' && enter()}
          onBlur={enter}
        />
        {props.unit !== '1' && <span>{as.unit}</span>}
      </span>
      {wrong && (
        <p className="wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}

/** Money as people type it; what cannot be read is said and stays. */
export function PriceField(props: {
  readonly label: string;
  readonly cents: Cents | null;
  readonly onEnter: (cents: Cents | null) => void;
}) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState('');
  const enter = () => {
    if (typed === null) return;
    const cents = typed.trim() === '' ? null : parseMoney(typed);
    if (cents === null && typed.trim() !== '') {
      setWrong(tr`“${typed}” is not a price: type it like 84 or 84.50.`);
      return;
    }
    setWrong('');
    setTyped(null);
    props.onEnter(cents);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{props.label}</label>
      <input
        id={id}
        inputMode="decimal"
        autoComplete="off"
        placeholder={tr`no price yet`}
        value={typed ?? (props.cents === null ? '' : moneyText(props.cents))}
        aria-invalid={wrong !== ''}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onFocus={(e) => e.target.select()}
        onChange={(e) => setTyped(e.target.value)}
        onBlur={enter}
        onKeyDown={(e) => {
          if (e.key === 'Enter') enter();
        }}
      />
      {wrong && (
        <p className="wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}

/** A titled part of a panel. */
export function Section(props: {
  readonly title: string;
  readonly children: ReactNode;
  readonly actions?: ReactNode;
}) {
  const id = useId();
  return (
    <section className="part" aria-labelledby={id}>
      <header>
        <h2 id={id}>{props.title}</h2>
        {props.actions}
      </header>
      {props.children}
    </section>
  );
}
