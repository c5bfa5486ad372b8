import { ALL_VALUES } from '../coating/systems/index.ts';
import { COAT_NAMES } from '../coating/systems/system.ts';
import type { Edit } from '../job/edits/index.ts';
import type { Results } from '../results.ts';
import { type UnitSystem, volumeNumber, volumeUnit } from '../units/format.ts';
import type { Quantity } from '../working/quantity.ts';
import { sourceText } from '../working/source.ts';
import { Choice, NumberField, Section, Working } from './fields.tsx';
import { OrderSection } from './order-section.tsx';

/** Litres for each coat of each zone, totals by product, and the values they rest on. */
export function CoatsPanel(props: {
  readonly results: Results;
  readonly units: UnitSystem;
  readonly onWorking: (q: Quantity) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { results, units, onWorking, onChange } = props;
  const { job, takeoff, coating } = results;
  if (takeoff.zones.length === 0)
    return <p className="empty">Trace a slab first; its coats are worked out here.</p>;
  const litres = (q: Quantity) => <Working of={q} text={volumeNumber(q.value, units)} onOpen={onWorking} />;
  const whole = (q: Quantity, digits = 0) => (
    <Working of={q} text={q.value.toFixed(digits)} onOpen={onWorking} />
  );
  return (
    <>
      <Section title="Totals by product">
        <table className="totals">
          <tbody>
            {[...coating.paints, ...coating.others].map((t) => (
              <tr key={`${t.material} ${t.colour}`}>
                <th scope="row">
                  {t.material}
                  {t.colour && <span className="dim"> {t.colour}</span>}
                </th>
                <td className="num">
                  {t.quantity.unit === 'L'
                    ? litres(t.quantity)
                    : whole(t.quantity, t.quantity.unit === 'kg' ? 2 : 0)}
                </td>
                <td>{t.quantity.unit === 'L' ? volumeUnit(units) : t.quantity.unit}</td>
              </tr>
            ))}
          </tbody>
        </table>
        <p className="caution">
          Quantities are what the surfaces take; the packs to buy follow below. What the tin says goes before
          any value here.
        </p>
      </Section>
      <OrderSection results={results} units={units} onWorking={onWorking} onChange={onChange} />
      <Section title="Coats">
        <div className="scroll">
          <table className="coats">
            <thead>
              <tr>
                <th scope="col">Zone and coat</th>
                <th scope="col" className="num">
                  Paint {volumeUnit(units)}
                </th>
                <th scope="col" className="num">
                  Thinner {volumeUnit(units)}
                </th>
                <th scope="col" className="num">
                  Grip g
                </th>
                <th scope="col" className="num">
                  Wet µm
                </th>
                <th scope="col" className="num">
                  Dry µm
                </th>
              </tr>
            </thead>
            {coating.zones.map((z, i) => (
              <tbody key={z.zoneId}>
                <tr className="group">
                  <th scope="rowgroup" colSpan={6}>
                    {takeoff.zones[i]!.name}
                    <span className="dim">
                      {' '}
                      {z.system?.name ?? 'not coated'}; {z.preparation}
                    </span>
                  </th>
                </tr>
                {z.coats.map((c) => (
                  <tr key={c.role}>
                    <th scope="row">
                      {COAT_NAMES[c.role]}
                      {c.reasons.map((reason) => (
                        <span key={reason} className="reason">
                          {reason}
                        </span>
                      ))}
                    </th>
                    <td className="num">{litres(c.paint)}</td>
                    <td className="num">{c.thinner ? litres(c.thinner) : '–'}</td>
                    <td className="num">{c.additive ? whole(c.additive) : '–'}</td>
                    <td className="num">{whole(c.wetFilm)}</td>
                    <td className="num">{whole(c.dryFilm)}</td>
                  </tr>
                ))}
                {z.etch && z.etchWater && (
                  <tr>
                    <th scope="row">etch</th>
                    <td className="num" colSpan={5}>
                      {whole(z.etch, 2)} kg citric acid in {litres(z.etchWater)} {volumeUnit(units)} of water
                    </td>
                  </tr>
                )}
              </tbody>
            ))}
          </table>
        </div>
        <p className="caution">
          Acid burns: eye and skin protection, acid into water and never water into acid, rinse well and keep
          the rinse out of drains and gardens as local law asks. Solvents: no flames, fresh air. Wet coated
          concrete can be slippery; only a wet pendulum test of the finished surface says how much. Follow the
          label and local law.
        </p>
      </Section>
      <Section title="Values behind the numbers">
        <Choice
          label="Thinning is given as a share of the"
          value={job.settings.thinningOf}
          options={[
            ['paint', 'paint'],
            ['mix', 'finished mix'],
          ]}
          onChange={(thinningOf) => onChange([{ type: 'change-settings', args: { thinningOf } }])}
        />
        <table className="values">
          <thead>
            <tr>
              <th scope="col">Value</th>
              <th scope="col">In use</th>
              <th scope="col">From</th>
            </tr>
          </thead>
          <tbody>
            {ALL_VALUES.map((d) => {
              const own = job.values[d.key];
              return (
                <tr key={d.key}>
                  <th scope="row">
                    {d.group}: {d.name}
                    {d.note && <span className="reason">{d.note}</span>}
                  </th>
                  <td>
                    <NumberField
                      label={`${d.group}: ${d.name}`}
                      hideLabel
                      value={own ?? d.value}
                      unit={d.unit}
                      low={d.low}
                      high={d.high}
                      onEnter={(value) => onChange([{ type: 'set-value', args: { key: d.key, value } }])}
                    />
                  </td>
                  <td>
                    {own === undefined ? (
                      sourceText(d.source)
                    ) : (
                      <button
                        type="button"
                        onClick={() => onChange([{ type: 'set-value', args: { key: d.key, value: null } }])}
                      >
                        Back to {d.value}
                      </button>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </Section>
    </>
  );
}
