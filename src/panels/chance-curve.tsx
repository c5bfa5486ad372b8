import type { OrderLine } from '../order/order.ts';
import { chanceShort } from '../order/risk.ts';
import { type UnitSystem, volumeNumber, volumeUnit } from '../units/format.ts';
import { tr } from '../words/tr.ts';

const WIDTH = 320;
const HEIGHT = 120;
const BASE = 88;
const STEPS = 80;

/** How the litres of a line are spread, with what is ordered marked on it; in words for who cannot see it. */
export function ChanceCurve({ line, units }: { readonly line: OrderLine; readonly units: UnitSystem }) {
  const { middle, deviation } = line.spread;
  const bought = line.choice?.boughtL ?? line.need.value;
  const low = Math.exp(middle - 3.5 * deviation);
  const high = Math.max(Math.exp(middle + 3.5 * deviation), bought) * 1.02;
  if (!(deviation > 0.001) || !(high > low)) return null;
  const x = (litres: number) => 10 + ((litres - low) / (high - low)) * (WIDTH - 20);
  const height = (litres: number) =>
    (Math.exp(-(((Math.log(litres) - middle) / deviation) ** 2) / 2) * Math.exp(middle)) / litres;
  const top = height(Math.exp(middle - deviation ** 2));
  const at = (litres: number) => `${x(litres).toFixed(1)},${(BASE - (height(litres) / top) * 66).toFixed(1)}`;
  const between = (a: number, b: number) =>
    Array.from({ length: STEPS + 1 }, (_, i) => at(a + ((b - a) * i) / STEPS)).join(' ');
  const marks = [
    [tr`plain`, line.paint.quantity.value, 0],
    ['+ %', line.byPercent.value, 1],
    [tr`chance`, line.byChance.value, 2],
    [tr`bought`, bought, 3],
  ] as const;
  const words = marks
    .map(
      ([name, litres]) =>
        tr`${name} ${volumeNumber(litres, units)} ${volumeUnit(units)} runs short in ${(100 * chanceShort(line.spread, litres)).toFixed(1)} of 100 jobs`,
    )
    .join('; ');
  return (
    <svg
      className="chances"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={tr`Litres the job may really take: ${words}.`}
    >
      <polygon
        className="short"
        points={`${x(Math.min(bought, high))},${BASE} ${between(Math.min(bought, high), high)} ${x(high)},${BASE}`}
      />
      <polyline className="curve" points={between(low, high)} />
      <line className="axis" x1={10} x2={WIDTH - 10} y1={BASE} y2={BASE} />
      {marks.map(([name, litres, row]) => {
        const place = Math.min(Math.max(x(litres), 10), WIDTH - 10);
        return (
          <g key={name} className={row === 3 ? 'mark chosen' : 'mark'}>
            <line x1={place} x2={place} y1={16 + row * 12} y2={BASE} />
            <text
              x={place > WIDTH - 80 ? place - 3 : place + 3}
              y={20 + row * 12}
              textAnchor={place > WIDTH - 80 ? 'end' : 'start'}
            >
              {name}
            </text>
          </g>
        );
      })}
      <text x={10} y={BASE + 16}>
        {volumeNumber(low, units)}
      </text>
      <text x={WIDTH - 10} y={BASE + 16} textAnchor="end">
        {volumeNumber(high, units)} {volumeUnit(units)}
      </text>
    </svg>
  );
}
