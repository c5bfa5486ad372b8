import { tr } from '../words/tr.ts';
import { commonPractice } from '../working/source.ts';
import { after, final, has, memory, type Question, refuse, test } from './question.ts';

/** Chalk on old paint and on concrete coloured all through. */
export const chalking: Question = {
  id: 'chalking',
  words: tr`Rubbed with a dark cloth, it leaves`,
  how: tr`Rub hard in several places; look for powder of its colour.`,
  source: memory(tr`ASTM D4214 (ISO 4628-6), rating 8 or better to be coated over`),
  asks: {
    kind: 'choice',
    options: [
      ['nothing', tr`nothing, or a trace`],
      ['powder', tr`powder of its colour`],
    ],
  },
  applies: has('coloured', 'painted'),
  judge: (answer, slab) => {
    if (answer === 'nothing') return null;
    if (answer === 'powder') {
      return slab.conditions.has('coloured')
        ? refuse(
            tr`Its colour chalks: oxide that comes off on a cloth takes any coat with it; take it down to sound concrete first.`,
          )
        : after(tr`The old paint chalks: wash and abrade it until a cloth stays clean.`);
    }
    return test(tr`Rub it with a dark cloth: chalk of its colour would take the coat with it.`);
  },
};

/** Whether old paint holds. */
export const oldPaint: Question = {
  id: 'old-paint',
  words: tr`Old paint, cut crosswise and pulled with tape`,
  how: tr`Two cuts through to the concrete, tape over them, pulled off.`,
  source: memory(tr`ASTM D3359 method A: 4A or better to be coated over, below 3A take it off`),
  asks: {
    kind: 'choice',
    options: [
      ['holds', tr`holds, at most a trace along the cuts`],
      ['edges', tr`comes off along the cuts`],
      ['peels', tr`peels beyond the cuts`],
    ],
  },
  applies: has('painted'),
  judge: (answer) => {
    if (answer === 'holds') return null;
    if (answer === 'edges')
      return after(
        tr`The old paint holds only in part: take off what is loose, and coat a test patch before the rest.`,
      );
    return answer === 'peels'
      ? refuse(
          tr`The old paint does not hold, and a new coat holds no better than what lies under it: take it off.`,
        )
      : test(tr`Cut and pull the old paint: a new coat holds no better than it does.`);
  },
};

/** Whether the new coat’s solvent lifts old paint. */
export const oldPaintKind: Question = {
  id: 'old-paint-kind',
  words: tr`Old paint rubbed with a rag wet with the new coat’s thinner`,
  how: tr`Rub for half a minute, leave it for ten, look whether it softens or wrinkles.`,
  source: commonPractice,
  asks: {
    kind: 'choice',
    options: [
      ['stays', tr`stays as it is`],
      ['softens', tr`softens, wrinkles or comes off`],
    ],
  },
  applies: (slab) => has('painted')(slab) && slab.carriers.has('solvent'),
  judge: (answer) => {
    if (answer === 'stays') return null;
    return answer === 'softens'
      ? refuse(
          tr`The solvent of the new coat softens the old paint, and both would lift: take the old paint off, or choose a water-borne coat.`,
        )
      : test(
          tr`Rub the old paint with the new coat’s thinner: a solvent lifts many old coats, water-borne ones above all.`,
        );
  },
};

/** Whether old paint may hold lead. */
export const lead: Question = {
  id: 'old-paint-date',
  words: tr`Old paint may be from before lead was banned from paint`,
  how: tr`Before 1978 in the United States, before 1970 in Australia, before 1992 in the United Kingdom; elsewhere ask.`,
  source: {
    kind: 'published',
    title: tr`EPA renovation, repair and painting rule, 73 FR 21692`,
    edition: tr`22 April 2008`,
    clause: tr`summary; the Australian and British years are from memory`,
  },
  asks: {
    kind: 'choice',
    options: [
      ['later', tr`no, it is later`],
      ['maybe', tr`yes, or nobody knows`],
      ['tested', tr`tested: no lead`],
      ['lead', tr`tested: lead`],
    ],
  },
  applies: has('painted'),
  judge: (answer) => {
    if (answer === 'later' || answer === 'tested') return null;
    return answer === 'lead'
      ? final(
          tr`There is lead in the old paint: sanding or grinding it is licensed work in many places; let a certified firm deal with it first.`,
        )
      : test(tr`The old paint may hold lead: have it tested before anybody sands or grinds it.`);
  },
};
