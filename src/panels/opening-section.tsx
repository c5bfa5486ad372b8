import { useState } from 'react';
import { tr } from '../words/tr.ts';
import { Choice, NumberField, Section, Switch, TextField } from './fields.tsx';

/** What a person chooses of a file before it is opened. */
export interface Chosen {
  readonly page?: number;
  readonly password?: string;
  readonly ratio?: number;
  readonly units?: string;
  readonly layers?: readonly string[];
}

/** Asks for what only a person knows of a file: page, password, scale, layers and units. */
export function OpeningSection(props: {
  readonly name: string;
  readonly pages: number;
  readonly layers: ReadonlyArray<{ readonly name: string; readonly hidden: boolean }>;
  readonly locked: boolean;
  readonly wrong: string;
  readonly onOpen: (chosen: Chosen) => void;
  readonly onLeave: () => void;
}) {
  const { pages, layers, locked } = props;
  const [page, setPage] = useState(1);
  const [password, setPassword] = useState('');
  const [ratio, setRatio] = useState<number | null>(null);
  const [units, setUnits] = useState('');
  const [taken, setTaken] = useState<ReadonlySet<string> | null>(null);
  const isDrawing = layers.length > 0;
  const all = layers.map((l) => l.name);
  const chosen = taken ?? new Set(layers.filter((l) => !l.hidden).map((l) => l.name));
  const flip = (name: string, on: boolean) => {
    const next = new Set(chosen);
    if (on) next.add(name);
    else next.delete(name);
    setTaken(next);
  };
  return (
    <Section title={tr`Open ${props.name}`}>
      {props.wrong && (
        <p className="wrong" role="alert">
          {props.wrong}
        </p>
      )}
      <div className="fields">
        {locked && <TextField label={tr`Password`} value={password} onChange={setPassword} />}
        {pages > 1 && (
          <NumberField
            label={tr`Page, 1 to ${pages}`}
            value={page}
            unit="1"
            low={1}
            high={pages}
            onEnter={(n) => setPage(Math.round(n))}
          />
        )}
        {!isDrawing && (
          <NumberField
            label={tr`Scale of the page, 1 : N, if it says`}
            value={ratio}
            unit="1"
            low={0.001}
            high={1_000_000}
            onEnter={setRatio}
            onClear={() => setRatio(null)}
          />
        )}
        {isDrawing && (
          <Choice
            label={tr`Units`}
            value={units}
            options={[['', tr`as it says`], ...['mm', 'cm', 'm', 'in', 'ft'].map((u) => [u, u] as const)]}
            onChange={setUnits}
          />
        )}
      </div>
      {isDrawing && (
        <fieldset>
          <legend>{tr`Layers`}</legend>
          <div className="buttons">
            <button type="button" onClick={() => setTaken(new Set(all))}>{tr`All`}</button>
            <button type="button" onClick={() => setTaken(new Set())}>{tr`None`}</button>
          </div>
          <ul className="rows">
            {layers.map((l) => (
              <li key={l.name}>
                <Switch
                  label={`${l.name || tr`without a name`}${l.hidden ? tr` (hidden in the drawing)` : ''}`}
                  on={chosen.has(l.name)}
                  onChange={(on) => flip(l.name, on)}
                />
              </li>
            ))}
          </ul>
        </fieldset>
      )}
      <div className="buttons">
        <button
          type="button"
          className="main"
          onClick={() =>
            props.onOpen({
              ...(locked ? { password } : {}),
              ...(pages > 1 ? { page } : {}),
              ...(ratio === null ? {} : { ratio }),
              ...(units === '' ? {} : { units }),
              ...(isDrawing ? { layers: [...chosen] } : {}),
            })
          }
        >{tr`Open it`}</button>
        <button type="button" onClick={props.onLeave}>{tr`Leave it`}</button>
      </div>
    </Section>
  );
}
