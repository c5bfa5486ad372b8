import type { Ring } from '../../geometry/index.ts';
import type { Job } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import type { Source } from '../working/source.ts';

/** What a contract counts as area done. Voids over the threshold are deducted, smaller ones are paid for. */
export interface MeasuringRule {
  readonly id: string;
  readonly name: string;
  /** Voids up to this size, each by itself, are not deducted, m². */
  readonly voidsUpToM2: number;
  /** Lines such as drains up to this width are not deducted, m; null where the rule knows no such thing. */
  readonly linesUpToM: number | null;
  readonly source: Source;
}

export const MEASURING_RULES: readonly MeasuringRule[] = [
  {
    id: 'net',
    name: tr`net: everything that is not coated is deducted`,
    voidsUpToM2: 0,
    linesUpToM: null,
    source: { kind: 'derived', from: 'geometry' },
  },
  {
    id: 'din-18363',
    name: tr`German building contract rules, painting (floors)`,
    voidsUpToM2: 0.5,
    linesUpToM: 0.3,
    source: {
      kind: 'published',
      title: 'VOB/C ATV DIN 18363',
      edition: tr`edition not shown where it was read`,
      clause: '5.2.1.1, 5.2.1.2',
    },
  },
  {
    id: 'is-1200-13',
    name: tr`Indian Standard, painting of building surfaces`,
    voidsUpToM2: 0.5,
    linesUpToM: null,
    source: { kind: 'published', title: tr`IS 1200 (Part 13)`, edition: '1994', clause: '3.2' },
  },
  {
    id: 'nrm2-29',
    name: tr`UK rules of measurement, painting`,
    voidsUpToM2: 1,
    linesUpToM: null,
    source: { kind: 'from memory', of: tr`NRM2, work section 29` },
  },
];

/** The rule the job asks for, with the user's own threshold where there is one; net unless it asks. */
export function ruleOf(job: Job): MeasuringRule {
  const wanted = job.settings.measuringRule;
  const rule = MEASURING_RULES.find((r) => r.id === wanted?.id) ?? MEASURING_RULES[0]!;
  return wanted?.voidsUpToM2 === undefined || wanted.voidsUpToM2 === null
    ? rule
    : { ...rule, voidsUpToM2: wanted.voidsUpToM2 };
}

/** A void as the rules see it. */
export interface RuledVoid {
  readonly ring: Ring;
  /** Of the whole void, wherever it lies. */
  readonly wholeM2: number;
  /** How wide it is where it is a line; else null. */
  readonly lineWidthM: number | null;
}

/** Whether the rule takes a void out of what is paid for. */
export const isDeducted = (rule: MeasuringRule, v: RuledVoid): boolean =>
  rule.linesUpToM !== null && v.lineWidthM !== null
    ? v.lineWidthM > rule.linesUpToM
    : v.wholeM2 > rule.voidsUpToM2;
