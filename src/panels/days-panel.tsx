import { type ReactNode, useState } from 'react';
import { evaporationUs } from '../days/formulas.ts';
import type { Verdict } from '../days/reading.ts';
import { DAY_VALUES } from '../days/values.ts';
import type { Edit } from '../job/edits/index.ts';
import type { Id } from '../job/types.ts';
import type { Results } from '../results.ts';
import type { UnitSystem } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';
import { NumberField, Section, Working } from './fields.tsx';
import { rich } from './rich.tsx';
import { ValuesTable } from './values-section.tsx';

const GO_WORDS = { go: tr`go`, care: tr`go with care`, no: tr`do not coat now` } as const;

/** The weather on the slab as it is read there: whether a coat may go on, and how long it takes. */
export function DaysPanel(props: {
  readonly results: Results;
  readonly newId: (prefix: string) => Id;
  readonly onWorking: (q: Quantity) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
  readonly children: ReactNode;
}) {
  const { results, onChange } = props;
  return (
    <>
      {props.children}
      <Section title={tr`Right now on the slab`}>
        <p className="dim">{tr`Read air, humidity and the slab itself every four hours while coats go on, and when the weather turns.`}</p>
        <ReadingForm units={results.job.settings.units} newId={props.newId} onChange={onChange} />
        {results.verdicts.map((v) => (
          <VerdictCard key={v.reading.id} verdict={v} us={results.job.settings.units === 'us'} {...props} />
        ))}
      </Section>
      <Section title={tr`Values behind go and wait`}>
        <ValuesTable job={results.job} values={DAY_VALUES} onChange={onChange} />
      </Section>
    </>
  );
}

function ReadingForm(props: {
  readonly units: UnitSystem;
  readonly newId: (prefix: string) => Id;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const [airC, setAir] = useState<number | null>(null);
  const [humidityPct, setHumidity] = useState<number | null>(null);
  const [slabC, setSlab] = useState<number | null>(null);
  const [windKmH, setWind] = useState<number | null>(5);
  const ready = airC !== null && humidityPct !== null && slabC !== null && windKmH !== null;
  const add = () => {
    if (!ready) return;
    const now = new Date();
    const at = new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
    props.onChange([
      { type: 'add-reading', args: { id: props.newId('r'), at, airC, humidityPct, slabC, windKmH } },
    ]);
  };
  return (
    <div className="fields">
      <NumberField
        units={props.units}
        label={tr`Air`}
        value={airC}
        unit="°C"
        low={-60}
        high={70}
        onEnter={setAir}
      />
      <NumberField
        label={tr`Humidity`}
        value={humidityPct}
        unit="%"
        low={1}
        high={100}
        onEnter={setHumidity}
      />
      <NumberField
        units={props.units}
        label={tr`Slab`}
        value={slabC}
        unit="°C"
        low={-60}
        high={100}
        onEnter={setSlab}
      />
      <NumberField
        units={props.units}
        label={tr`Wind over the slab`}
        value={windKmH}
        unit="km/h"
        low={0}
        high={400}
        onEnter={setWind}
      />
      <button type="button" disabled={!ready} onClick={add}>{tr`Write it down`}</button>
    </div>
  );
}

function VerdictCard(props: {
  readonly verdict: Verdict;
  readonly us: boolean;
  readonly onWorking: (q: Quantity) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { verdict: v, onWorking } = props;
  const { reading: r } = v;
  const number = (q: Quantity, digits: number) => (
    <Working of={q} text={q.value.toFixed(digits)} onOpen={onWorking} />
  );
  return (
    <div className="verdict">
      <p>
        <span className={`outcome ${v.go}`}>{GO_WORDS[v.go]}</span> {v.reason}
      </p>
      <p className="dim">{tr`${r.at.replace('T', ' ')}: air ${r.airC} °C, ${r.humidityPct} %, slab ${r.slabC} °C, wind ${r.windKmH} km/h`}</p>
      <p>{rich`Dew point ${number(v.dewPoint, 1)} °C, the slab ${number(v.margin, 1)} °C above it, with ${number(v.humidityAtSlab, 0)} % at its surface. Evaporation ${number(v.evaporation, 2)} (older formula ${number(v.evaporationMenzel, 2)}) kg/m² an hour${props.us && tr`, ${usRate(v).toFixed(3)} lb/ft² an hour`}, good to 40 %.`}</p>
      <ul className="plain">
        {v.recoats.map((c) => (
          <li key={c.product.id}>
            {c.firstDrying
              ? rich`${c.product.name}: coat over it after ${number(c.hours, 1)} h, an estimate and never less than the label; its water needs ${number(c.firstDrying, 0)} min at the least.`
              : rich`${c.product.name}: coat over it after ${number(c.hours, 1)} h, an estimate and never less than the label.`}
          </li>
        ))}
      </ul>
      <button
        type="button"
        onClick={() => props.onChange([{ type: 'remove-reading', args: { readingId: r.id } }])}
      >{tr`Strike out`}</button>
    </div>
  );
}

/** As ready-mix practice prints it, for those who think in it. */
const usRate = ({ reading: r }: Verdict): number =>
  evaporationUs.evaluate({
    Tc: Math.max(r.slabC, -17) * 1.8 + 32,
    Ta: Math.max(r.airC, -17) * 1.8 + 32,
    RH: r.humidityPct,
    V: r.windKmH / 1.609344,
  });
