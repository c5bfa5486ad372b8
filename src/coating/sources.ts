import { tr } from '../words/tr.ts';
import type { Source } from '../working/source.ts';

const published = (title: string, edition: string, clause: string): Source => ({
  kind: 'published',
  title,
  edition,
  clause,
});

/** Public texts that several values and questions go back to. */
export const UFC_COATINGS = tr`UFC 3-190-06 Protective Coatings and Paints`;

export const ufcCoatings = (clause: string): Source => published(UFC_COATINGS, tr`16 January 2004`, clause);

/** Of oil paint, second coat, about one pint a gallon. */
export const armyCoverage: Source = published(
  tr`US Army TM 43-0139, of oil paint`,
  '',
  tr`table 3-2, notes 3 and 4: about 1 pint a gallon`,
);
export const faaCuring: Source = published(
  tr`FAA contract specification FTWIC-2235`,
  tr`June 2009`,
  tr`3.02, item P-9`,
);
export const bidTemperature: Source = published(tr`an engineer’s bid specification`, '', tr`section 1.07`);
export const maturity: Source = {
  kind: 'from memory',
  of: tr`ASTM C1074 (Nurse-Saul maturity, datum −10 °C)`,
};
