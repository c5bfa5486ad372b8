import type { Content } from 'pdfmake/interfaces';
import { NO_BUSINESS, NO_CUSTOMER } from '../../job/paper-types.ts';
import { areaText, plainNumber } from '../../units/format.ts';
import { moneyText } from '../../units/money.ts';
import { tr } from '../../words/tr.ts';
import { daysAfter, dayText } from './dates.ts';
import type { PaperContent, Writing } from './paper.ts';
import {
  bullets,
  cautionsPart,
  heading,
  listed,
  pairs,
  para,
  quiet,
  set,
  stopped,
  table,
  title,
} from './parts.ts';
import { canBeSet, fromBase64 } from './pictures.ts';

/** What the customer is offered: scope, what it is subject to, price and terms. Never costs or margin. */
export const quotePaper: PaperContent = (writing) => {
  const { job, quote } = writing.results;
  const { scope } = quote;
  const { units } = job.settings;
  return [
    letterhead(writing),
    title(job.offer?.number ? tr`Quote ${job.offer.number}` : tr`Quote`, true),
    addressed(writing),
    heading(tr`What is done`),
    ...(scope.work.length > 0
      ? [bullets(scope.work.map((w) => `${w.zone}, ${areaText(w.areaM2, units)}: ${w.words}`))]
      : [para(tr`Nothing is to be coated.`)]),
    ...listed(tr`Before the first coat`, scope.before),
    ...listed(tr`Not to be coated`, scope.refused),
    ...listed(tr`Coated against advice`, scope.overruled),
    ...price(writing),
    ...listed(tr`Not included`, scope.exclusions),
    ...cautionsPart(quote.cautions),
    ...terms(writing),
  ];
};

function letterhead({ results: { job } }: Writing): Content {
  const business = { ...NO_BUSINESS, ...job.business };
  const words: Content = {
    stack: [
      { text: set(business.name), bold: true, fontSize: 12 },
      { text: set(business.details), fontSize: 8.5 },
    ],
    alignment: business.logo ? 'right' : 'left',
  };
  if (!business.logo || !canBeSet(business.logo.type, fromBase64(business.logo.base64)))
    return { stack: [words], margin: [0, 0, 0, 14] };
  const { type, base64 } = business.logo;
  return {
    columns: [{ image: `data:${type};base64,${base64}`, fit: [150, 60], width: 160 }, words],
    margin: [0, 0, 0, 14],
  };
}

function addressed({ results: { job }, desk }: Writing): Content {
  const customer = { ...NO_CUSTOMER, ...job.customer };
  const on = job.offer?.on ?? desk.today;
  const days = (job.business ?? NO_BUSINESS).validDays;
  return pairs([
    ...(customer.name || customer.address
      ? [[tr`For`, [customer.name, customer.address].filter(Boolean).join('\n')] as const]
      : []),
    ...(customer.site ? [[tr`Site`, customer.site] as const] : []),
    [tr`Job`, job.name],
    [tr`Date`, dayText(on)],
    ...(days > 0 ? [[tr`Holds until`, dayText(daysAfter(on, days))] as const] : []),
  ]);
}

function price({ results: { job, quote } }: Writing): Content[] {
  const { offer, tax } = quote;
  const currency = job.settings.currency ? ` (${job.settings.currency})` : '';
  if (quote.blocks.length > 0) {
    const why =
      quote.scope.refused.length > 0
        ? tr`No price: it should not be coated as it is.`
        : tr`No price yet: something is still open.`;
    return [heading(tr`Price`), ...stopped(why, quote.blocks)];
  }
  if (quote.costs.length === 0)
    return [heading(tr`Price`), para(tr`Nothing is coated, so there is no price.`)];
  if (!offer) return [heading(tr`Price`), para(tr`No price yet: some prices are still to be entered.`)];
  const rows = [
    ...offer.lines.map((l) => [l.what, moneyText(l.cents)]),
    ...(tax.rule.taxName
      ? [
          [tr`Net`, moneyText(offer.netCents)],
          [
            `${tax.rule.taxName}, ${plainNumber(tax.ratePct)} %${tax.on === 'materials' ? tr` of paint and materials` : ''}`,
            moneyText(offer.taxCents),
          ],
        ]
      : []),
    [tr`Total`, moneyText(offer.totalCents)],
  ];
  return [
    heading(tr`Price`),
    table(
      [
        { heading: tr`Part`, width: '*' },
        { heading: tr`Price${currency}`, number: true, width: 110 },
      ],
      rows,
      true,
    ),
    ...(tax.rule.taxName ? [] : [quiet(tr`No tax is added.`)]),
    ...(offer.perYearCents === null
      ? []
      : [
          quiet(
            tr`That is ${moneyText(offer.perYearCents)} for each year until it is expected to want another coat.`,
          ),
        ]),
  ];
}

function terms({ results: { job } }: Writing): Content[] {
  const words = job.business?.terms ?? '';
  return [
    ...(words ? [heading(tr`Terms`), para(words)] : []),
    {
      columns: [toSign(tr`Accepted, name and date`), toSign(tr`Signature`)],
      columnGap: 24,
      margin: [0, 34, 0, 0],
      unbreakable: true,
    },
  ];
}

/** A line to write on, and what is to be written. */
const toSign = (words: string): Content => ({
  stack: [
    { canvas: [{ type: 'line', x1: 0, y1: 0, x2: 230, y2: 0, lineWidth: 0.5 }] },
    { text: words, fontSize: 7.5, margin: [0, 2, 0, 0] },
  ],
});
