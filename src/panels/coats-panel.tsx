import { Fragment } from 'react';
import { cautionsFor, DEFERENCE } from '../coating/cautions.ts';
import { tintName } from '../coating/coat-need.ts';
import { GRIP_STATEMENT, gripAdvice } from '../coating/grip.ts';
import { PREPARATION_NAMES } from '../coating/preparation.ts';
import { ALL_VALUES } from '../coating/systems/index.ts';
import { COAT_NAMES } from '../coating/systems/system.ts';
import type { Edit } from '../job/edits/index.ts';
import type { Id } from '../job/types.ts';
import type { Results } from '../results.ts';
import {
  amountNumber,
  amountUnit,
  filmNumber,
  filmUnit,
  massNumber,
  massUnit,
  smallMassNumber,
  smallMassUnit,
  type UnitSystem,
  volumeNumber,
  volumeUnit,
} from '../units/format.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';
import { sourceText } from '../working/source.ts';
import { Drawer } from './drawer.tsx';
import { Choice, Section, Working } from './fields.tsx';
import { MixesSection } from './mixes-section.tsx';
import { rich } from './rich.tsx';
import { TrialsSection } from './trials-section.tsx';
import { ValuesTable } from './values-section.tsx';

/** Litres for each coat of each zone, totals by product, and the values they rest on. */
export function CoatsPanel(props: {
  readonly results: Results;
  readonly units: UnitSystem;
  readonly onWorking: (q: Quantity) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
  readonly newId: (prefix: string) => Id;
}) {
  const { results, units, onWorking, onChange } = props;
  const { job, takeoff, coating } = results;
  if (takeoff.zones.length === 0)
    return <p className="empty">{tr`Trace a slab first; its coats are worked out here.`}</p>;
  const totals = [
    ...coating.paints.map((t) => ({ name: t.product.name, tint: t.tint, quantity: t.quantity })),
    ...coating.others.map((t) => ({ name: t.material, tint: '', quantity: t.quantity })),
  ];
  const shown = (q: Quantity, as: (value: number, units: UnitSystem) => string) => (
    <Working of={q} text={as(q.value, units)} onOpen={onWorking} />
  );
  const litres = (q: Quantity) => shown(q, volumeNumber);
  return (
    <>
      <Section title={tr`Totals by product`}>
        <table className="totals">
          <tbody>
            {totals.map((t) => (
              <tr key={`${t.name} ${t.tint}`}>
                <th scope="row">
                  {t.name}
                  {t.tint && <span className="dim"> {t.tint}</span>}
                </th>
                <td className="num">
                  <Working
                    of={t.quantity}
                    text={amountNumber(t.quantity.value, t.quantity.unit, units)}
                    onOpen={onWorking}
                  />
                </td>
                <td>{amountUnit(t.quantity.unit, units)}</td>
              </tr>
            ))}
          </tbody>
        </table>
        <p className="caution">{tr`Quantities are what the surfaces take; the packs to buy are under Order. What the tin says goes before any value here.`}</p>
      </Section>
      <Section title={tr`Coats`}>
        <div className="scroll">
          <table className="coats">
            <thead>
              <tr>
                <th scope="col">{tr`Zone and coat`}</th>
                <th scope="col" className="num">{tr`Paint ${volumeUnit(units)}`}</th>
                <th scope="col" className="num">{tr`Thinner ${volumeUnit(units)}`}</th>
                <th scope="col" className="num">{tr`Grip ${smallMassUnit(units)}`}</th>
                <th scope="col" className="num">{tr`Wet ${filmUnit(units)}`}</th>
                <th scope="col" className="num">{tr`Dry ${filmUnit(units)}`}</th>
                <th scope="col" className="num">{tr`VOC g/L`}</th>
              </tr>
            </thead>
            {coating.zones.map((z, i) => (
              <tbody key={z.zoneId}>
                <tr className="group">
                  <th scope="rowgroup" colSpan={7}>
                    {takeoff.zones[i]!.name}
                    <span className="dim">
                      {' '}
                      {z.system?.name ?? tr`no system`};{' '}
                      {z.preparation ? PREPARATION_NAMES[z.preparation] : tr`not coated`}
                    </span>
                  </th>
                </tr>
                {z.coats.map((c) => (
                  <Fragment key={c.role}>
                    <tr>
                      <th scope="row">
                        {COAT_NAMES[c.role]}
                        {tintName(c) && <span className="dim"> {tintName(c)}</span>}
                      </th>
                      <td className="num">{litres(c.paint)}</td>
                      <td className="num">{c.thinner ? litres(c.thinner) : '–'}</td>
                      <td className="num">{c.additive ? shown(c.additive, smallMassNumber) : '–'}</td>
                      <td className="num">{shown(c.wetFilm, filmNumber)}</td>
                      <td className="num">{c.dryFilm ? shown(c.dryFilm, filmNumber) : '–'}</td>
                      <td className="num">
                        <Working of={c.voc} text={c.voc.value.toFixed(0)} onOpen={onWorking} />
                      </td>
                    </tr>
                    {c.reasons.map((reason) => (
                      <tr key={reason} className="why">
                        <td colSpan={7}>{reason}</td>
                      </tr>
                    ))}
                  </Fragment>
                ))}
                {z.etch && z.etchWater && (
                  <tr>
                    <th scope="row">{tr`etch`}</th>
                    <td
                      className="num"
                      colSpan={6}
                    >{rich`${shown(z.etch, massNumber)} ${massUnit(units)} citric acid in ${litres(z.etchWater)} ${volumeUnit(units)} of water`}</td>
                  </tr>
                )}
              </tbody>
            ))}
          </table>
        </div>
        <Grip results={results} />
        <ul className="caution">
          {cautionsFor(takeoff.zones, coating).map((c) => (
            <li key={c.words}>
              {c.words} <span className="dim">{sourceText(c.source)}</span>
            </li>
          ))}
        </ul>
        <p className="caution">{DEFERENCE}</p>
      </Section>
      <MixesSection results={results} units={units} />
      <TrialsSection results={results} newId={props.newId} onWorking={onWorking} onChange={onChange} />
      <Section title={tr`Values behind the numbers`}>
        <div className="fields">
          <Choice
            label={tr`Thinning is given as a share of the`}
            value={job.settings.thinningOf}
            options={[
              ['paint', tr`paint`],
              ['mix', tr`finished mix`],
            ]}
            onChange={(thinningOf) => onChange([{ type: 'change-settings', args: { thinningOf } }])}
          />
          <Choice
            label={tr`A thinned coat is rolled to the same`}
            value={job.settings.filmHeld ?? 'dry'}
            options={[
              ['dry', tr`dry film: more of the mix`],
              ['wet', tr`wet film: less paint, a thinner film`],
            ]}
            onChange={(filmHeld) => onChange([{ type: 'change-settings', args: { filmHeld } }])}
          />
        </div>
        <ValuesTable job={job} values={ALL_VALUES} onChange={onChange} />
      </Section>
    </>
  );
}

/** What a zone's place suggests for grip, which nothing here can promise. */
function Grip({ results }: { readonly results: Results }) {
  const { job, takeoff, coating } = results;
  const coated = takeoff.zones.filter((_, i) => coating.zones[i]!.coats.length > 0);
  return (
    <Drawer name="grip" summary={tr`Which grip such places usually ask for`}>
      <ul className="plain">
        {coated.map((zone) => (
          <li key={zone.id}>
            <strong>{zone.name}</strong>
            {gripAdvice(zone, job.slabs[zone.slabId]!.slope).map((a) => (
              <span key={a.place} className="reason">
                {a.place}: {a.suggests} ({sourceText(a.source)})
              </span>
            ))}
          </li>
        ))}
      </ul>
      <p className="caution">{GRIP_STATEMENT}</p>
    </Drawer>
  );
}
