import type { Fit, GroundMark, KnownMarks } from '../job/types.ts';
import type { UnitSystem } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { Choice, LengthField, NumberField } from './fields.tsx';

interface MarksProps {
  readonly fit: Extract<Fit, { kind: 'marks' }>;
  readonly units: UnitSystem;
  readonly onFit: (fit: Fit) => void;
  readonly onMarks: () => void;
  readonly onStraight: () => void;
  readonly onPictureOf: (() => void) | null;
}

type MarksFit = Extract<Fit, { kind: 'marks' }>;

const KNOWN_WORDS: ReadonlyArray<readonly [KnownMarks['type'], string]> = [
  ['rectangle', tr`a rectangle’s two sides`],
  ['points', tr`each mark’s place`],
  ['tapes', tr`distances between them`],
];

/** What is known of the marks on a photo, and what more can be said of it. */
export function MarksForm(props: MarksProps) {
  const { fit, onFit } = props;
  const options = KNOWN_WORDS.filter(([type]) => type !== 'rectangle' || fit.marks.length === 4);
  return (
    <>
      <div className="fields">
        <Choice
          label={tr`What is known of the marks`}
          value={fit.known.type}
          options={options}
          onChange={(type) => onFit({ ...fit, known: knownAs(type) })}
        />
      </div>
      {fit.known.type === 'rectangle' && <Rectangle {...props} known={fit.known} />}
      {fit.known.type === 'points' && <Places {...props} />}
      {fit.known.type === 'tapes' && <Tapes {...props} known={fit.known} />}
      <p className="dim">
        {fit.straights.length === 0
          ? tr`Does the photo bend straight edges? Mark one or two that are straight in truth.`
          : tr`${fit.straights.length} straight ${fit.straights.length === 1 ? tr`line tells` : tr`lines tell`} how the lens bends.`}
      </p>
      <div className="buttons">
        {props.onPictureOf && (
          <button
            type="button"
            className="main"
            onClick={props.onPictureOf}
          >{tr`Make a straight picture`}</button>
        )}
        <button type="button" onClick={props.onMarks}>{tr`Add a mark`}</button>
        <button type="button" onClick={props.onStraight}>{tr`Mark a straight line`}</button>
        {fit.straights.length > 0 && (
          <button
            type="button"
            onClick={() => onFit({ ...fit, straights: fit.straights.slice(0, -1) })}
          >{tr`Take the last line back`}</button>
        )}
        {fit.marks.length > 4 && (
          <button
            type="button"
            onClick={() => onFit(withoutLast(fit))}
          >{tr`Take mark ${fit.marks.length} back`}</button>
        )}
      </div>
    </>
  );
}

function knownAs(type: KnownMarks['type']): KnownMarks {
  if (type === 'tapes') return { type, tapes: [] };
  return type === 'points' ? { type } : { type: 'rectangle', lengthM: 1, widthM: 1 };
}

function withoutLast(fit: MarksFit): MarksFit {
  const last = fit.marks.length - 1;
  const known: KnownMarks =
    fit.known.type === 'tapes'
      ? { type: 'tapes', tapes: fit.known.tapes.filter((t) => t.a !== last && t.b !== last) }
      : fit.known;
  return { ...fit, marks: fit.marks.slice(0, last), known };
}

function Rectangle(props: MarksProps & { readonly known: Extract<KnownMarks, { type: 'rectangle' }> }) {
  const { fit, known, units, onFit } = props;
  return (
    <div className="fields">
      <LengthField
        label={tr`From mark 1 to mark 2`}
        valueM={known.lengthM}
        units={units}
        onEnter={(lengthM) => onFit({ ...fit, known: { ...known, lengthM } })}
      />
      <LengthField
        label={tr`From mark 2 to mark 3`}
        valueM={known.widthM}
        units={units}
        onEnter={(widthM) => onFit({ ...fit, known: { ...known, widthM } })}
      />
    </div>
  );
}

function Places({ fit, onFit }: MarksProps) {
  const put = (i: number, on: { x: number; y: number }) => {
    const marks = fit.marks.map((m, j): GroundMark => (j === i ? { ...m, on } : m));
    onFit({ ...fit, marks });
  };
  return (
    <ul className="rows">
      {fit.marks.map((m, i) => (
        <li key={`${m.at.x} ${m.at.y}`}>
          <NumberField
            label={tr`Mark ${i + 1}: metres across`}
            value={m.on?.x ?? null}
            unit="m"
            low={-1000}
            high={1000}
            onEnter={(x) => put(i, { x, y: m.on?.y ?? 0 })}
          />
          <NumberField
            label={tr`Mark ${i + 1}: metres up`}
            value={m.on?.y ?? null}
            unit="m"
            low={-1000}
            high={1000}
            onEnter={(y) => put(i, { x: m.on?.x ?? 0, y })}
          />
        </li>
      ))}
    </ul>
  );
}

function Tapes(props: MarksProps & { readonly known: Extract<KnownMarks, { type: 'tapes' }> }) {
  const { fit, known, units, onFit } = props;
  const pairs = fit.marks.flatMap((_, a) => fit.marks.slice(a + 1).map((__, k) => [a, a + 1 + k] as const));
  const set = (a: number, b: number, lengthM: number | null) => {
    const rest = known.tapes.filter((t) => t.a !== a || t.b !== b);
    onFit({
      ...fit,
      known: { type: 'tapes', tapes: lengthM === null ? rest : [...rest, { a, b, lengthM }] },
    });
  };
  return (
    <div className="fields">
      {pairs.map(([a, b]) => {
        const tape = known.tapes.find((t) => t.a === a && t.b === b);
        return (
          <div key={`${a} ${b}`} className="field-with">
            <LengthField
              label={tr`From mark ${a + 1} to mark ${b + 1}`}
              valueM={tape?.lengthM ?? null}
              units={units}
              placeholder={tr`not taped`}
              onEnter={(lengthM) => set(a, b, lengthM)}
            />
            {tape && (
              <button
                type="button"
                aria-label={tr`Leave out ${a + 1} to ${b + 1}`}
                onClick={() => set(a, b, null)}
              >{tr`Leave out`}</button>
            )}
          </div>
        );
      })}
    </div>
  );
}
