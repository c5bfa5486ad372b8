import { tr } from '../words/tr.ts';
import { derive, leaf } from '../working/quantity.ts';
import { commonPractice, entered } from '../working/source.ts';
import { curedDays, vapourRate } from './formulas.ts';
import { after, always, anyBare, has, memory, type Question, refuse, test } from './question.ts';
import { chalking, lead, oldPaint, oldPaintKind } from './questions-old-paint.ts';
import { maturity, ufcCoatings } from './sources.ts';
import { valueByKey } from './values.ts';

/** From this age on nobody asks how it was cured. */
const OLD_DAYS = 365;

const age: Question = {
  id: 'age',
  words: tr`Age of the concrete`,
  how: tr`Ask when it was poured; for old concrete any large number will do.`,
  source: maturity,
  asks: { kind: 'number', unit: 'days', low: 0, high: 50_000 },
  applies: anyBare,
  judge: (days, slab) => {
    if (typeof days !== 'number')
      return test(tr`Its age is not known yet: new concrete has to cure before it is coated.`);
    const d = valueByKey(slab.job, 'ready.age');
    if (days >= Math.max(OLD_DAYS, 2 * d.value)) return null;
    const answered = slab.answer('cure-temperature');
    if (typeof answered !== 'number') {
      return test(tr`It is ${days} days old, and at what temperature it cured is not known yet.`);
    }
    const t = leaf(tr`temperature it cured at`, 't', answered, '°C', entered);
    const needed = derive(tr`days of curing`, curedDays, { d, t }).value;
    return days >= needed
      ? null
      : after(
          tr`It is ${days} days old, and at ${answered} °C concrete wants ${Math.ceil(needed)} days: wait ${Math.ceil(needed - days)} more.`,
        );
  },
};

const cureTemperature: Question = {
  id: 'cure-temperature',
  words: tr`Usual temperature while it cured`,
  how: tr`The mean of day and night since it was poured.`,
  source: maturity,
  asks: { kind: 'number', unit: '°C', low: -5, high: 50 },
  applies: (slab) => {
    const days = slab.answer('age');
    return (
      anyBare(slab) &&
      typeof days === 'number' &&
      days < Math.max(OLD_DAYS, 2 * valueByKey(slab.job, 'ready.age').value)
    );
  },
  judge: () => null,
};

const waterDrop: Question = {
  id: 'water-drop',
  words: tr`A drop of water on it`,
  how: tr`Three drops in several places, and a watch.`,
  source: memory(tr`ASTM F3191 (field water absorption); common practice for 60 s`),
  asks: {
    kind: 'choice',
    options: [
      ['soaks-in', tr`darkens and soaks in within a minute`],
      ['stands', tr`beads or stands longer`],
    ],
  },
  applies: anyBare,
  judge: (answer, slab) => {
    const sealed = has('sealed', 'patterned')(slab);
    if (answer === 'soaks-in') return null;
    if (sealed) {
      return refuse(
        answer === 'stands'
          ? tr`A sealer lies on it, and no coat holds on a sealer: strip or grind it off until a drop of water soaks in.`
          : tr`It is sealed, stencilled or stamped, and no coat holds on a sealer: strip or grind it off, then show with a drop of water that it is gone.`,
      );
    }
    return answer === 'stands'
      ? after(
          tr`Water stands on it, so a sealer, curing compound or grease is in it and etch will not bite: strip, degrease or grind it until a drop soaks in.`,
        )
      : test(tr`Put a drop of water on it: it shows whether a sealer or grease is in the way.`);
  },
};

const tapeBare: Question = {
  id: 'tape-bare',
  words: tr`Tape pressed on the bare surface and pulled off`,
  how: tr`Strong tape, rubbed down, pulled sharply.`,
  source: commonPractice,
  asks: {
    kind: 'choice',
    options: [
      ['clean', tr`comes off clean`],
      ['grains', tr`pulls grains or dust`],
    ],
  },
  applies: anyBare,
  judge: (answer) => {
    if (answer === 'clean') return null;
    return answer === 'grains'
      ? after(
          tr`Its surface is friable and would come away with the coat: grind to sound concrete or consolidate it, then pull again.`,
        )
      : test(tr`Pull tape off the bare surface: it shows whether the top holds.`);
  },
};

const moisture: Question = {
  id: 'moisture-sheet',
  words: tr`Clear plastic sheet taped down overnight`,
  how: tr`About half a metre square, 0.1 mm, taped all round for at least 16 hours out of the sun; one for every 46 m² (size, time and number from memory).`,
  source: {
    kind: 'published',
    title: 'ASTM D4263',
    edition: '1983 (2018)',
    clause: tr`2.1–4.2 for what it is and when; size, time and number from memory`,
  },
  asks: {
    kind: 'choice',
    options: [
      ['dry', tr`dry, nothing darker`],
      ['damp', tr`drops, or darker concrete`],
    ],
  },
  applies: always,
  judge: (answer) => {
    if (answer === 'dry') return null;
    return answer === 'damp'
      ? after(
          tr`Water rises through it: let it dry, find where the water comes from, and lay the sheet again.`,
        )
      : test(
          tr`Tape a clear sheet down overnight: it shows whether water rises through the slab. No limit of moisture is published for thin coats outdoors.`,
        );
  },
};

const vapour: Question = {
  id: 'vapour',
  words: tr`Moisture vapour by calcium chloride, where that test was made`,
  how: tr`Only for floors under a roof, 60–72 hours; leave it out outdoors.`,
  source: { kind: 'from memory', of: tr`ASTM F1869; its unit, scope and hours were read` },
  asks: { kind: 'number', unit: 'g/m² a day', low: 0, high: 500 },
  applies: always,
  judge: (answer, { job }) => {
    if (typeof answer !== 'number') return null;
    const limit = derive(tr`limit`, vapourRate, { l: valueByKey(job, 'ready.vapour') }).value;
    return answer <= limit
      ? null
      : after(
          tr`Moisture vapour of ${answer} g/m² a day is above the ${limit.toFixed(1)} that indoor floors are held to: find out why it is damp, and let it dry.`,
        );
  },
};

const surfacePh: Question = {
  id: 'ph-surface',
  words: tr`pH of the rinsed surface, from paper`,
  how: tr`Wet it with clean water, wait a minute, lay pH paper on.`,
  source: ufcCoatings(tr`6.7.2.1, citing ASTM D4262`),
  asks: { kind: 'number', unit: 'pH', low: 0, high: 14 },
  applies: anyBare,
  judge: (surface, slab) => {
    const water = slab.answer('ph-water');
    if (typeof surface !== 'number' || typeof water !== 'number') {
      return test(tr`After the last rinse compare its pH with that of the rinse water.`);
    }
    const limit = valueByKey(slab.job, 'ready.ph').value;
    const apart = Math.abs(surface - water);
    return apart <= limit
      ? null
      : after(
          tr`Its pH of ${surface} is ${apart.toFixed(1)} from the water’s ${water}, more than ${limit}: rinse it again and measure again.`,
        );
  },
};

const waterPh: Question = {
  id: 'ph-water',
  words: tr`pH of the rinse water`,
  how: tr`The same paper in the clean water.`,
  source: surfacePh.source,
  asks: surfacePh.asks,
  applies: anyBare,
  judge: () => null,
};

const oil: Question = {
  id: 'oil',
  words: tr`Oil and grease`,
  how: tr`Look under where engines stand; a drop of water beads on oil.`,
  source: {
    kind: 'published',
    title: 'ASTM D4260',
    edition: '2005 (2012)',
    clause: tr`4.1–4.3: free of oil and grease`,
  },
  asks: {
    kind: 'choice',
    options: [
      ['none', tr`none found`],
      ['stains', tr`stains on the surface`],
      ['soaked', tr`soaked in, and comes back`],
    ],
  },
  applies: always,
  judge: (answer) => {
    if (answer === 'none') return null;
    if (answer === 'stains')
      return after(
        tr`Oil stains: degrease, rinse, and show with a drop of water that they are out before it is etched.`,
      );
    return answer === 'soaked'
      ? refuse(
          tr`Oil has soaked in and comes back after cleaning: no coat holds there; cut that concrete out or leave it.`,
        )
      : test(tr`Look for oil and grease: coats do not hold on them.`);
  },
};

const cracks: Question = {
  id: 'cracks',
  words: tr`Cracks`,
  how: tr`A coin’s edge, 2 mm; feel for a step.`,
  source: commonPractice,
  asks: {
    kind: 'choice',
    options: [
      ['none', tr`none, or hairlines`],
      ['still', tr`wider, but still`],
      ['moving', tr`moving, or with a step`],
    ],
  },
  applies: always,
  judge: (answer) => {
    if (answer === 'none') return null;
    if (answer === 'still')
      return after(tr`Cracks: clean and fill them, and let the filler cure as its label says.`);
    return answer === 'moving'
      ? after(
          tr`Cracks that move or step will show through any coat: find out why they move; fill them with something that moves too, and tell the customer.`,
        )
      : test(tr`Look for cracks: they show through.`);
  },
};

const weather: Question = {
  id: 'coldest',
  words: tr`Coldest that concrete and air will be, the nights after included`,
  how: tr`The forecast’s lowest for the days of the job, and two degrees less for a slab under a clear sky.`,
  source: commonPractice,
  asks: { kind: 'number', unit: '°C', low: -40, high: 60 },
  applies: always,
  judge: (answer, { job }) => {
    if (typeof answer !== 'number')
      return test(tr`Look up how cold the nights will be: a coat that is too cold never films.`);
    const limit = valueByKey(job, 'ready.coldest').value;
    return answer >= limit
      ? null
      : after(tr`It will be ${answer} °C, and coats want ${limit} °C and more: wait for warmer days.`);
  },
};

const hottest: Question = {
  id: 'hottest',
  words: tr`Hottest that the concrete will be while it is coated`,
  how: tr`A thermometer on the slab in the sun; 10 to 20 °C above the air is usual.`,
  source: commonPractice,
  asks: { kind: 'number', unit: '°C', low: -40, high: 90 },
  applies: always,
  judge: (answer, { job }) => {
    if (typeof answer !== 'number')
      return test(tr`Find out how hot the concrete gets: a coat dries on it before it has wetted it.`);
    const limit = valueByKey(job, 'ready.hottest').value;
    return answer <= limit
      ? null
      : after(
          tr`It will be ${answer} °C, and coats want ${limit} °C or less: follow the shade, or start early.`,
        );
  },
};

/** Every question, in the order they are asked on site. */
export const QUESTIONS: readonly Question[] = [
  age,
  cureTemperature,
  waterDrop,
  tapeBare,
  chalking,
  oldPaint,
  oldPaintKind,
  lead,
  moisture,
  vapour,
  surfacePh,
  waterPh,
  oil,
  cracks,
  weather,
  hottest,
];
