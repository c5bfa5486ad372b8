import type { Content } from 'pdfmake/interfaces';
import { tintName } from '../../coating/coat-need.ts';
import { COAT_NAMES, THINNER_NAMES } from '../../coating/systems/system.ts';
import { TEXTURE_NAMES, TRAFFIC_NAMES } from '../../coating/values.ts';
import { stretchName } from '../../takeoff/describe.ts';
import {
  areaNumber,
  areaUnit,
  filmNumber,
  filmUnit,
  lengthNumber,
  lengthUnit,
  napText,
  smallMassNumber,
  smallMassUnit,
  volumeNumber,
  volumeUnit,
} from '../../units/format.ts';
import { tr } from '../../words/tr.ts';
import type { PaperContent, Writing } from './paper.ts';
import { heading, quiet, table, title } from './parts.ts';

/** Zones, edges and coats, as they were measured and worked out. */
export const tablesPaper: PaperContent = (writing) => [
  title(tr`Zones, edges and coats`),
  ...zones(writing),
  ...coats(writing),
  ...edges(writing),
];

const num = (text: string, width?: number) => ({ heading: text, number: true, ...(width ? { width } : {}) });

function zones({ results: { takeoff, coating, job } }: Writing): Content[] {
  const { units } = job.settings;
  const area = (m2: number) => areaNumber(m2, units);
  const total = (pick: (z: (typeof takeoff.zones)[number]) => number) =>
    takeoff.zones.reduce((sum, z) => sum + pick(z), 0);
  const u = areaUnit(units);
  const rows = takeoff.zones.map((z, i) => [
    String(i + 1),
    z.name,
    `${TEXTURE_NAMES[z.surface.texture]}, ${TRAFFIC_NAMES[z.surface.traffic]}`,
    coating.zones[i]!.system?.name ?? tr`not coated`,
    area(z.netArea.value),
    area(z.area95.value),
    area(z.voidAreaM2),
    lengthNumber(z.boundary.value, units),
    lengthNumber(z.cutIn.value, units),
    lengthNumber(z.masked.value, units),
  ]);
  const sums = [
    '',
    tr`Total`,
    '',
    '',
    area(total((z) => z.netArea.value)),
    '',
    area(total((z) => z.voidAreaM2)),
    '',
    lengthNumber(
      total((z) => z.cutIn.value),
      units,
    ),
    lengthNumber(
      total((z) => z.masked.value),
      units,
    ),
  ];
  return [
    heading(tr`Zones`),
    table(
      [
        { heading: tr`No.` },
        { heading: tr`Zone`, width: '*' },
        { heading: tr`Surface`, width: 78 },
        { heading: tr`System`, width: 78 },
        num(tr`Net ${u}`),
        num(`± ${u}`),
        num(tr`Out ${u}`),
        num(tr`Edge ${lengthUnit(units)}`),
        num(tr`Cut in ${lengthUnit(units)}`),
        num(tr`Mask ${lengthUnit(units)}`),
      ],
      [...rows, sums],
      true,
    ),
    quiet(
      tr`± holds the true area 95 times in 100 (JCGM 100). “Out” is what drains, posts and pits take out.`,
    ),
  ];
}

function coats({ results: { takeoff, coating, job } }: Writing): Content[] {
  const { units } = job.settings;
  const litres = (q: { readonly value: number } | null) => (q ? volumeNumber(q.value, units) : '');
  const rows = coating.zones.flatMap((z, i) =>
    z.coats.map((c) => [
      takeoff.zones[i]!.name,
      COAT_NAMES[c.role],
      [c.product.name, tintName(c)].filter(Boolean).join(', '),
      litres(c.paint),
      c.thinner ? `${litres(c.thinner)} ${THINNER_NAMES[c.product.thinner]}` : '',
      c.additive ? smallMassNumber(c.additive.value, units) : '',
      filmNumber(c.wetFilm.value, units),
      napText(z.nap.value, units),
    ]),
  );
  if (rows.length === 0) return [];
  return [
    heading(tr`Coats`),
    table(
      [
        { heading: tr`Zone`, width: '*' },
        { heading: tr`Coat` },
        { heading: tr`Product`, width: 118 },
        num(tr`Paint ${volumeUnit(units)}`),
        { heading: tr`Thinner ${volumeUnit(units)}`, width: 68 },
        num(tr`Grip ${smallMassUnit(units)}`),
        num(tr`Wet ${filmUnit(units)}`),
        num(tr`Nap`),
      ],
      rows,
    ),
  ];
}

function edges({ results: { takeoff, job } }: Writing): Content[] {
  const { units } = job.settings;
  const rows = takeoff.zones.flatMap((z) =>
    z.stretches.map((s, i) => [
      i === 0 ? z.name : '',
      stretchName(s),
      lengthNumber(s.lengthM, units),
      s.brushed ? tr`cut in` : '',
      s.masked ? tr`masked` : '',
      s.faceUpM > 0 ? tr`face ${lengthNumber(s.faceUpM, units)}` : '',
    ]),
  );
  if (rows.length === 0) return [];
  return [
    heading(tr`Edges`),
    table(
      [
        { heading: tr`Zone`, width: 110 },
        { heading: tr`Edge`, width: '*' },
        num(tr`Length ${lengthUnit(units)}`),
        { heading: tr`Brush` },
        { heading: tr`Tape` },
        { heading: tr`Face up` },
      ],
      rows,
    ),
  ];
}
