import type { Bucket } from '../coating/mixes.ts';
import type { Results } from '../results.ts';
import {
  areaNumber,
  areaUnit,
  massNumber,
  massUnit,
  smallMassNumber,
  smallMassUnit,
  type UnitSystem,
  volumeNumber,
  volumeUnit,
} from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { Section } from './fields.tsx';

/** Bucket by bucket for every coat, and can by can for the etch. */
export function MixesSection({ results, units }: { readonly results: Results; readonly units: UnitSystem }) {
  const { mixes, etchSheet } = results;
  if (mixes.length === 0) return null;
  const vol = (litres: number) => volumeNumber(litres, units);
  return (
    <Section title={tr`Mixing, bucket by bucket`}>
      {etchSheet && (
        <>
          <h3>{tr`Etch`}</h3>
          <p>{tr`${
            etchSheet.cans > 0
              ? tr`${etchSheet.cans} × ${massNumber(etchSheet.acidKg, units)} ${massUnit(units)} citric acid into ${vol(etchSheet.waterL)} ${volumeUnit(units)} of warm water`
              : ''
          }${etchSheet.cans > 0 && etchSheet.lastWaterL > 0 ? tr`, then ` : ''}${
            etchSheet.lastWaterL > 0
              ? tr`${massNumber(etchSheet.lastAcidKg, units)} ${massUnit(units)} into ${vol(etchSheet.lastWaterL)} ${volumeUnit(units)}`
              : ''
          }. A full can goes ${areaNumber(etchSheet.coversM2, units)} ${areaUnit(units)}; leave it ${etchSheet.dwellMin} minutes, scrub, and rinse before it dries. Acid into water, never water into acid. Have up to ${massNumber(etchSheet.neutraliserKg, units)} ${massUnit(units)} of sodium bicarbonate at hand for what is left; pH paper decides.`}</p>
        </>
      )}
      {mixes.map((m) => (
        <div key={m.key}>
          <h3>{m.title}</h3>
          <p className="dim">{tr`${m.zoneNames.join(', ')}. At most ${m.limit} at a time.`}</p>
          <section
            className="scroll"
            aria-label={tr`Buckets of ${m.title} for ${m.zoneNames.join(', ')}`}
            // biome-ignore lint/a11y/noNoninteractiveTabindex: nothing in it takes the focus, and it scrolls
            tabIndex={0}
          >
            <table className="totals">
              <thead>
                <tr>
                  <th scope="col">{tr`Buckets`}</th>
                  <th scope="col" className="num">
                    {m.full?.hardenerL || m.last?.hardenerL ? tr`Base` : tr`Paint`} {volumeUnit(units)}
                  </th>
                  {m.full?.hardenerL || m.last?.hardenerL ? (
                    <th scope="col" className="num">{tr`Hardener ${volumeUnit(units)}`}</th>
                  ) : null}
                  <th scope="col" className="num">
                    {m.thinner} {volumeUnit(units)}
                  </th>
                  <th scope="col" className="num">{tr`Grip ${smallMassUnit(units)}`}</th>
                  <th scope="col" className="num">{tr`Goes ${areaUnit(units)}`}</th>
                </tr>
              </thead>
              <tbody>
                {m.full && <BucketRow words={tr`${m.fullCount} full`} bucket={m.full} units={units} />}
                {m.last && (
                  <BucketRow words={m.full ? tr`the last` : tr`one`} bucket={m.last} units={units} />
                )}
              </tbody>
            </table>
          </section>
          {m.notes.map((note) => (
            <p key={note}>{note}</p>
          ))}
        </div>
      ))}
    </Section>
  );
}

function BucketRow(props: { readonly words: string; readonly bucket: Bucket; readonly units: UnitSystem }) {
  const { bucket: b, units } = props;
  return (
    <tr>
      <th scope="row">{props.words}</th>
      <td className="num">{volumeNumber(b.paintL - b.hardenerL, units)}</td>
      {b.hardenerL > 0 && <td className="num">{volumeNumber(b.hardenerL, units)}</td>}
      <td className="num">{b.thinnerL > 0 ? volumeNumber(b.thinnerL, units) : '–'}</td>
      <td className="num">{b.additiveG > 0 ? smallMassNumber(b.additiveG, units) : '–'}</td>
      <td className="num">{areaNumber(b.coversM2, units)}</td>
    </tr>
  );
}
