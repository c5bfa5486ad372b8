import type { Content } from 'pdfmake/interfaces';
import { boughtNumber, boughtUnit, packText, volumeNumber, volumeUnit } from '../../units/format.ts';
import { tr } from '../../words/tr.ts';
import type { PaperContent } from './paper.ts';
import { bullets, heading, para, quiet, table, title } from './parts.ts';

/** What to buy, for a supplier: packs, colours and sundries; no prices. */
export const orderPaper: PaperContent = ({ results: { job, order } }): Content[] => {
  const { units } = job.settings;
  const head = title(tr`Order list`);
  if (order.blocks.length > 0)
    return [head, para(tr`Nothing is to be ordered yet.`), bullets(order.blocks.map((b) => b.sentence))];
  if (order.lines.length === 0) return [];
  const paints = order.lines.flatMap((line) =>
    line.choice && line.choice.packs.length > 0
      ? line.choice.packs.map((p, i) => [
          i === 0 ? line.product : '',
          i === 0 ? line.tint : '',
          i === 0 ? volumeNumber(line.need.value, units) : '',
          String(p.count),
          packText(p.sizeL, units),
        ])
      : [[line.product, line.tint, volumeNumber(line.need.value, units), '', tr`no packs that fit`]],
  );
  const sundries = order.sundries
    .filter((s) => s.bought && s.quantity.value > 0)
    .map((s) => [
      s.name,
      boughtNumber(s.quantity.value, s.unit, units),
      boughtUnit(s.unit, units, s.quantity.value),
    ]);
  const boxing = order.lines
    .filter((l) => l.boxing)
    .map((l) => `${l.product}${l.tint ? ` (${l.tint})` : ''}: ${l.boxing}`);
  return [
    head,
    heading(tr`Paint`),
    table(
      [
        { heading: tr`Product`, width: '*' },
        { heading: tr`Colour, base, finish`, width: 130 },
        { heading: tr`Needed ${volumeUnit(units)}`, number: true },
        { heading: tr`Packs`, number: true },
        { heading: tr`Of`, width: 70 },
      ],
      paints,
    ),
    quiet(tr`Needed holds what may run over and a labelled reserve for touching up.`),
    ...(sundries.length > 0
      ? [
          heading(tr`Besides`),
          table(
            [
              { heading: tr`Material`, width: '*' },
              { heading: tr`Amount`, number: true },
              { heading: tr`Unit`, width: 60 },
            ],
            sundries,
          ),
        ]
      : []),
    ...(boxing.length > 0 ? [heading(tr`Batches`), bullets(boxing)] : []),
  ];
};
