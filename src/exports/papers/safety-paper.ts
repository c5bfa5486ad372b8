import type { Content } from 'pdfmake/interfaces';
import { DEFERENCE } from '../../coating/cautions.ts';
import type { Answer, Question } from '../../coating/question.ts';
import { OUTCOME_WORDS } from '../../coating/readiness.ts';
import { unitText } from '../../units/format.ts';
import { tr } from '../../words/tr.ts';
import { sourceText } from '../../working/source.ts';
import type { PaperContent } from './paper.ts';
import { bullets, heading, para, table, title } from './parts.ts';

/** Whether each slab may be coated, what was found on it, and the cautions that the work calls for. */
export const safetyPaper: PaperContent = ({ results: { readiness, quote } }): Content[] => {
  if (readiness.length === 0) return [];
  return [
    title(tr`Readiness and safety`),
    ...readiness.flatMap((r): Content[] => [
      heading(`${r.name}: ${OUTCOME_WORDS[r.outcome]}`),
      ...(r.findings.length > 0
        ? [bullets(r.findings.map((f) => `${f.sentence} [${sourceText(f.source)}]`))]
        : [para(tr`Nothing that was found stands against coating it.`)]),
      table(
        [
          { heading: tr`Asked`, width: 150 },
          { heading: tr`Found`, width: 120 },
          { heading: tr`Test behind it`, width: '*' },
        ],
        r.questions.map(({ question, answer }) => [
          question.words,
          answerText(question, answer),
          sourceText(question.source),
        ]),
      ),
    ]),
    heading(tr`Cautions`),
    bullets(quote.cautions.map((c) => `${c.words} [${sourceText(c.source)}]`)),
    { text: DEFERENCE, bold: true, margin: [0, 4, 0, 0] },
  ];
};

/** An answer as a person gave it. */
function answerText({ asks }: Question, answer: Answer): string {
  if (answer === undefined) return tr`not answered yet`;
  if (asks.kind === 'number') return `${answer} ${unitText(asks.unit)}`;
  return asks.options.find(([value]) => value === answer)?.[1] ?? String(answer);
}
