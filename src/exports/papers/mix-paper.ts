import type { Content } from 'pdfmake/interfaces';
import type { Bucket, EtchSheet, MixSheet } from '../../coating/mixes.ts';
import {
  areaNumber,
  areaUnit,
  massNumber,
  massUnit,
  smallMassNumber,
  smallMassUnit,
  volumeNumber,
  volumeUnit,
} from '../../units/format.ts';
import { tr } from '../../words/tr.ts';
import type { PaperContent } from './paper.ts';
import { bullets, cautionsPart, heading, quiet, stopped, table, title } from './parts.ts';

/** Bucket by bucket, for whoever mixes. */
export const mixPaper: PaperContent = ({ results: { job, mixes, etchSheet, order, quote } }): Content[] => {
  if (mixes.length === 0) return [];
  if (order.blocks.length > 0)
    return [title(tr`Mix sheets`), ...stopped(tr`Nothing is to be mixed as things are:`, order.blocks)];
  const { units } = job.settings;
  return [
    title(tr`Mix sheets`),
    ...(etchSheet ? etch(etchSheet, units) : []),
    ...mixes.map((m): Content => ({ stack: mix(m, units), unbreakable: true })),
    ...cautionsPart(quote.cautions),
  ];
};

type Units = Parameters<typeof areaUnit>[0];

function mix(m: MixSheet, units: Units): Content[] {
  const row = (count: string, b: Bucket) => [
    count,
    volumeNumber(b.paintL - b.hardenerL, units),
    ...(twoPack ? [volumeNumber(b.hardenerL, units)] : []),
    b.thinnerL > 0 ? `${volumeNumber(b.thinnerL, units)} ${m.thinner}` : '',
    b.additiveG > 0 ? smallMassNumber(b.additiveG, units) : '',
    areaNumber(b.coversM2, units),
  ];
  const twoPack = (m.full ?? m.last)!.hardenerL > 0;
  const v = volumeUnit(units);
  return [
    heading(`${m.title} — ${m.zoneNames.join(', ')}`),
    table(
      [
        { heading: tr`Buckets`, width: 60 },
        { heading: `${twoPack ? tr`Base` : tr`Paint`} ${v}`, number: true },
        ...(twoPack ? [{ heading: tr`Hardener ${v}`, number: true }] : []),
        { heading: tr`Thinner ${v}`, width: 110 },
        { heading: tr`Grip additive ${smallMassUnit(units)}`, number: true },
        { heading: tr`Goes ${areaUnit(units)}`, number: true },
      ],
      [
        ...(m.full ? [row(tr`${m.fullCount} of`, m.full)] : []),
        ...(m.last ? [row(m.full ? tr`the last` : tr`one`, m.last)] : []),
      ],
    ),
    bullets(m.notes),
    quiet(tr`A bucket holds no more than ${m.limit}.`),
  ];
}

function etch(e: EtchSheet, units: Units): Content[] {
  const v = volumeUnit(units);
  const rows = [
    ...(e.cans > 0
      ? [
          [
            tr`${e.cans} of`,
            e.acidKg.toFixed(2),
            volumeNumber(e.waterL, units),
            areaNumber(e.coversM2, units),
          ],
        ]
      : []),
    ...(e.lastWaterL > 0
      ? [
          [
            e.cans > 0 ? tr`the last` : tr`one`,
            e.lastAcidKg.toFixed(2),
            volumeNumber(e.lastWaterL, units),
            areaNumber((e.coversM2 * e.lastWaterL) / e.waterL, units),
          ],
        ]
      : []),
  ];
  return [
    heading(tr`Etch`),
    table(
      [
        { heading: tr`Cans`, width: 60 },
        { heading: tr`Citric acid ${massUnit(units)}`, number: true },
        { heading: tr`Water ${v}`, number: true },
        { heading: tr`Goes ${areaUnit(units)}`, number: true },
      ],
      rows,
    ),
    bullets([
      tr`Acid into water, never water into acid. ${e.dwellMin} min on the slab, scrub, rinse before it dries.`,
      tr`Neutraliser at hand: ${massNumber(e.neutraliserKg, units)} ${massUnit(units)} sodium bicarbonate at most.`,
      tr`Goggles, acid gloves, boots; follow the label and the safety data sheet.`,
    ]),
  ];
}
