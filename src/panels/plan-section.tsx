import { useState } from 'react';
import { tomorrow } from '../days/clock.ts';
import type { DayPlan } from '../days/plan.ts';
import type { Edit } from '../job/edits/index.ts';
import type { Place } from '../job/types.ts';
import type { Results } from '../results.ts';
import { tr } from '../words/tr.ts';
import { Drawer } from './drawer.tsx';
import { NumberField, Section } from './fields.tsx';
import { HoursStrip } from './hours-strip.tsx';

/** The weather to plan by, and the earliest plan in it. */
export function PlanSection(props: {
  readonly results: Results;
  /** YYYY-MM-DD. */
  readonly today: string;
  readonly onWeather: (place: Place | null) => void;
  readonly onPaste: (text: string, place: Place | null) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { days } = props.results;
  return (
    <>
      <Section title={tr`Weather to come`}>
        {days ? (
          <p className="dim">{tr`${days.weather.name}: ${days.climate.length} hours from ${days.weather.hours[0]!.at.replace('T', ' ')}, at ${days.weather.latitude}°, ${days.weather.longitude}°, the clock ${days.weather.zoneH} h ahead of UTC.`}</p>
        ) : (
          <p className="empty">{tr`Open a forecast saved as CSV or JSON, or an EPW year; nothing is fetched. The slab’s own temperature is worked out from air, sun and sky.`}</p>
        )}
        {days && isForecast(days) && lastDay(days) < props.today && (
          <p className="caution">{tr`These hours end on ${lastDay(days)}, before today: plan by newer ones.`}</p>
        )}
        <WeatherForm key={props.results.job.id} {...props} known={days?.weather ?? null} />
        {days?.strips.map((strip) => (
          <HoursStrip key={strip.product.id} plan={days} strip={strip} />
        ))}
        {days && (
          <p className="dim">{tr`Tall bars: go. Middling: wait, a later hour of the day will do. Low: no. The slab under sun is an estimate; a reading below takes its place.`}</p>
        )}
      </Section>
      {days && <PlanTable plan={days} />}
    </>
  );
}

/** A year of typical weather has no dates of its own. */
const isForecast = ({ weather: { hours } }: DayPlan): boolean => hours.length < 60 * 24;

const lastDay = ({ weather: { hours } }: DayPlan): string => hours[hours.length - 1]!.at.slice(0, 10);

function WeatherForm(props: {
  /** Where the weather in hand is of; null while there is none. */
  readonly known: Place | null;
  readonly onWeather: (place: Place | null) => void;
  readonly onPaste: (text: string, place: Place | null) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  // What is typed goes before what a file says; untouched, the fields show the place of the weather in hand.
  const [latitude, setLatitude] = useState<number | null>(null);
  const [longitude, setLongitude] = useState<number | null>(null);
  const [zoneH, setZone] = useState<number | null>(null);
  const [text, setText] = useState('');
  const shown = {
    latitude: latitude ?? props.known?.latitude ?? null,
    longitude: longitude ?? props.known?.longitude ?? null,
    zoneH: zoneH ?? (longitude === null ? (props.known?.zoneH ?? null) : null),
  };
  const typed = latitude !== null || longitude !== null || zoneH !== null;
  const place =
    typed && shown.latitude !== null && shown.longitude !== null
      ? {
          latitude: shown.latitude,
          longitude: shown.longitude,
          zoneH: shown.zoneH ?? Math.round(shown.longitude / 15),
        }
      : null;
  return (
    <>
      <div className="buttons">
        <button type="button" onClick={() => props.onWeather(place)}>{tr`Open weather`}</button>
        {props.known && (
          <button
            type="button"
            onClick={() => props.onChange([{ type: 'set-weather', args: { weather: null } }])}
          >{tr`Remove the weather`}</button>
        )}
      </div>
      <Drawer name="weather by hand" summary={tr`Paste it, or say where it is`}>
        <div className="fields">
          <NumberField
            label={tr`Latitude, north positive`}
            value={shown.latitude}
            unit="°"
            low={-90}
            high={90}
            onEnter={setLatitude}
          />
          <NumberField
            label={tr`Longitude, east positive`}
            value={shown.longitude}
            unit="°"
            low={-180}
            high={180}
            onEnter={setLongitude}
          />
          <NumberField
            label={tr`Clock ahead of UTC`}
            value={shown.zoneH}
            unit="h"
            low={-14}
            high={14}
            onEnter={setZone}
          />
          <div className="field">
            <label htmlFor="weather-text">{tr`Hours, one a line, with a heading`}</label>
            <textarea
              id="weather-text"
              rows={4}
              placeholder={`time, temperature (°C), relative humidity (%), wind speed (km/h)
2026-03-14T07:00, 12, 70, 5`}
              value={text}
              onChange={(e) => setText(e.target.value)}
            />
            <button
              type="button"
              disabled={text.trim() === ''}
              onClick={() => props.onPaste(text, place)}
            >{tr`Take these hours`}</button>
          </div>
        </div>
      </Drawer>
    </>
  );
}

const clock = (at: string | null): string => at?.replace('T', ' ') ?? tr`after the weather known ends`;

function PlanTable({ plan }: { readonly plan: DayPlan }) {
  if (plan.problem) {
    return (
      <Section title={tr`Day plan`}>
        <p className="wrong">{plan.problem}</p>
      </Section>
    );
  }
  return (
    <Section title={tr`Day plan`}>
      <Timeline plan={plan} />
      <div className="scroll">
        <table className="totals">
          <thead>
            <tr>
              <th scope="col">{tr`From`}</th>
              <th scope="col">{tr`To`}</th>
              <th scope="col">{tr`Work`}</th>
              <th scope="col" className="num">{tr`crew h`}</th>
            </tr>
          </thead>
          <tbody>
            {plan.tasks.map((t) => (
              <tr key={`${t.slabId} ${t.name}`}>
                <td>{clock(t.startAt)}</td>
                <td>{clock(t.endAt).slice(t.endAt.startsWith(t.startAt.slice(0, 10)) ? 11 : 0)}</td>
                <th scope="row">
                  {t.slabName}: {t.name}
                </th>
                <td className="num">{t.hours.toFixed(1)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>{tr`Done by ${clock(plan.finishAt)}${
        plan.exact
          ? tr`; no other order of these pieces of work ends earlier.`
          : tr`; a better order may exist.`
      } ${plan.shorter.join(' ')}`}</p>
      <ul className="plain">
        {plan.reopenings.map((r) => (
          <li
            key={r.slabId}
          >{tr`${r.slabName}: feet from ${clock(r.feetAt)}, vehicles from ${clock(r.vehiclesAt)}.`}</li>
        ))}
      </ul>
      <p className="caution">{tr`Estimates, never shorter than the label’s times; the label goes first, and the weather on the day.`}</p>
    </Section>
  );
}

const ROW = 24;
const LEFT = 96;
const WIDTH = 520;

/** The plan as bars, a row a slab, a column a day. */
function Timeline({ plan }: { readonly plan: DayPlan }) {
  const first = plan.tasks[0]!.startAt.slice(0, 10);
  const last = tomorrow(plan.finishAt!.slice(0, 10));
  const time = (at: string) => Date.parse(`${at.length === 10 ? `${at}T00:00` : at}:00Z`);
  const x = (at: string) => LEFT + ((time(at) - time(first)) / (time(last) - time(first))) * (WIDTH - LEFT);
  const slabs = [...new Set(plan.tasks.map((t) => t.slabName))];
  const days: string[] = [];
  for (let day = first; day < last; day = tomorrow(day)) days.push(day);
  return (
    <svg
      className="timeline"
      viewBox={`0 0 ${WIDTH} ${slabs.length * ROW + 20}`}
      role="img"
      aria-label={tr`The plan as bars; the table below says the same.`}
    >
      {days.map((day) => (
        <g key={day}>
          <line x1={x(day)} x2={x(day)} y1={14} y2={slabs.length * ROW + 20} />
          <text x={x(day) + 2} y={10}>
            {Number(day.slice(8))}.
          </text>
        </g>
      ))}
      {slabs.map((name, i) => (
        <text key={name} x={0} y={i * ROW + 34}>
          {name.length > 15 ? `${name.slice(0, 14)}…` : name}
        </text>
      ))}
      {plan.tasks.map((t) => (
        <rect
          key={`${t.slabId} ${t.name}`}
          className={t.step === 0 ? 'prep' : 'coat'}
          x={x(t.startAt)}
          y={slabs.indexOf(t.slabName) * ROW + 20}
          width={Math.max(2, x(t.endAt) - x(t.startAt))}
          height={ROW - 6}
        >
          <title>{tr`${t.slabName}: ${t.name}, ${clock(t.startAt)} to ${clock(t.endAt)}`}</title>
        </rect>
      ))}
    </svg>
  );
}
