import { type Remark, remark } from '../job/checks/check.ts';
import type { Condition, Id, Job, Slab } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { type Source, sourceText } from '../working/source.ts';
import type { Answer, Asked, Outcome, Question } from './question.ts';
import { QUESTIONS } from './questions.ts';
import { systemById } from './systems/index.ts';

/** What one answer, or the lack of one, means. */
export interface Finding {
  readonly questionId: Id;
  readonly outcome: Outcome;
  readonly sentence: string;
  /** The test behind it, and how well that is known. */
  readonly source: Source;
  /** What was answered; 'none' where nothing was. */
  readonly answer: string | number;
  /** Whether a written reason lets it pass; final where none can. */
  readonly overruled: boolean;
  readonly final?: true;
}

/** Whether one slab can be coated. */
export interface Readiness {
  readonly slabId: Id;
  readonly name: string;
  /** The gravest of what was found; 'coat' where nothing stands against it. */
  readonly outcome: Outcome;
  readonly findings: readonly Finding[];
  /** The questions that apply to it, with the answers there are. */
  readonly questions: ReadonlyArray<{ readonly question: Question; readonly answer: Answer }>;
  /** Why it is coated all the same; empty where nobody said so. */
  readonly coatAnyway: string;
}

const GRAVITY: Readonly<Record<Outcome, number>> = { coat: 0, test: 1, after: 2, refuse: 3 };

export const OUTCOME_WORDS: Readonly<Record<Outcome, string>> = {
  coat: tr`ready to coat`,
  test: tr`test first`,
  after: tr`coat after what is named`,
  refuse: tr`do not coat`,
};

/** Judges every slab that anything is to be coated on, in the order of the takeoff. */
export function readiness(job: Job, zones: readonly ZoneTakeoff[]): Readiness[] {
  const bySlab = new Map<Id, ZoneTakeoff[]>();
  for (const zone of zones) {
    if (!systemById(zone.surface.systemId) || !(zone.netArea.value > 0)) continue;
    bySlab.set(zone.slabId, [...(bySlab.get(zone.slabId) ?? []), zone]);
  }
  return [...bySlab].map(([slabId, own]) => slabReadiness(job, job.slabs[slabId]!, own));
}

function slabReadiness(job: Job, slab: Slab, zones: readonly ZoneTakeoff[]): Readiness {
  const answers = slab.answers ?? {};
  const asked: Asked = {
    job,
    conditions: new Set<Condition>(zones.map((z) => z.surface.condition)),
    carriers: new Set(
      zones.flatMap((z) => systemById(z.surface.systemId)?.coats.map((c) => c.product.carrier) ?? []),
    ),
    answer: (id) => (Object.hasOwn(answers, id) ? answers[id] : undefined),
  };
  const questions = QUESTIONS.filter((q) => q.applies(asked)).map((question) => ({
    question,
    answer: soundAnswer(question, asked.answer(question.id)),
  }));
  const findings = questions.flatMap(({ question, answer }): Finding[] => {
    const found = question.judge(answer, asked);
    if (!found) return [];
    const given = answer ?? 'none';
    const over = slab.coatAnyway?.over;
    // A reason holds against the answers it was written against; against lead none does.
    const overruled =
      found.outcome === 'refuse' &&
      !found.final &&
      !!over &&
      Object.hasOwn(over, question.id) &&
      over[question.id] === given;
    return [{ questionId: question.id, source: question.source, answer: given, overruled, ...found }];
  });
  const sorted = findings.sort((a, b) => GRAVITY[b.outcome] - GRAVITY[a.outcome]);
  return {
    slabId: slab.id,
    name: slab.name,
    outcome: sorted[0]?.outcome ?? 'coat',
    findings: sorted,
    questions,
    coatAnyway: slab.coatAnyway?.reason ?? '',
  };
}

/** The answer, or none where it is of another kind than the question asks for. */
function soundAnswer({ asks }: Question, answer: Answer): Answer {
  if (asks.kind === 'choice') return asks.options.some(([value]) => value === answer) ? answer : undefined;
  return typeof answer === 'number' && answer >= asks.low && answer <= asks.high ? answer : undefined;
}

/** Whether a slab is kept out of the order. */
export const isRefused = (r: Readiness): boolean =>
  r.findings.some((f) => f.outcome === 'refuse' && !f.overruled);

/** The finding in one sentence with the test it rests on. */
export const findingText = (f: Finding): string => `${f.sentence} (${sourceText(f.source)})`;

/** What a person should know about the concrete before anything is bought. */
export function readinessRemarks(job: Job, all: readonly Readiness[]): Remark[] {
  return all.flatMap((r): Remark[] => {
    // Where a zone has a system of its own, the slab's does not matter to it.
    const own = Object.values(job.tags).some(
      (t) => t.slabId === r.slabId && t.surface.systemId !== undefined,
    );
    const leave: Remark['fixes'] = own
      ? []
      : [
          {
            label: tr`Leave it uncoated`,
            edit: { type: 'update-slab', args: { slabId: r.slabId, surface: { systemId: null } } },
          },
        ];
    const refused = r.findings.filter((f) => f.outcome === 'refuse');
    const why = refused.find((f) => !f.overruled);
    if (why) {
      const words = tr`Do not coat “${r.name}”. ${why.sentence}`;
      return [{ ...remark('readiness/refuse', 'stop', r.slabId, words), fixes: leave }];
    }
    if (refused.length > 0) {
      const words = tr`“${r.name}” is coated although it should not be. ${refused.map((f) => f.sentence).join(' ')} Reason given: ${r.coatAnyway}`;
      return [remark('readiness/coat-anyway', 'mind', r.slabId, words)];
    }
    if (Object.keys(job.slabs[r.slabId]?.answers ?? {}).length === 0) {
      const words = tr`Nobody has said yet how the concrete of “${r.name}” is: answer the questions under Site before anything is bought.`;
      return [remark('readiness/unasked', 'mind', r.slabId, words)];
    }
    const open = r.findings.filter((f) => f.outcome === r.outcome);
    return open.map((f) => remark(`readiness/${r.outcome}`, 'mind', r.slabId, `“${r.name}”: ${f.sentence}`));
  });
}
