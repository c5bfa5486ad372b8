import { useState } from 'react';
import type { Answer, Question } from '../coating/question.ts';
import { OUTCOME_WORDS, type Readiness } from '../coating/readiness.ts';
import type { Edit } from '../job/edits/index.ts';
import type { UnitSystem } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { sourceText } from '../working/source.ts';
import { Drawer } from './drawer.tsx';
import { NumberField, Section } from './fields.tsx';

/** Whether each slab can be coated: questions to answer on site, and what the answers mean. */
export function ReadinessSection(props: {
  readonly readiness: readonly Readiness[];
  readonly units: UnitSystem;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  return (
    <Section title={tr`Is the concrete ready?`}>
      {props.readiness.length === 0 && (
        <p className="empty">{tr`Trace a slab and give it a system; the questions about its concrete appear here.`}</p>
      )}
      {props.readiness.map((r) => (
        <Drawer
          key={r.slabId}
          name={`questions ${r.slabId}`}
          id={`questions-${r.slabId}`}
          className="readiness"
          summary={
            <>
              {r.name} <span className={`outcome ${r.outcome}`}>{OUTCOME_WORDS[r.outcome]}</span>
            </>
          }
        >
          {r.findings.length > 0 && (
            <ul className="plain">
              {r.findings.map((f) => (
                <li key={f.questionId}>
                  <span className={`outcome ${f.outcome}`}>{OUTCOME_WORDS[f.outcome]}</span> {f.sentence}{' '}
                  <span className="dim">{sourceText(f.source)}</span>
                </li>
              ))}
            </ul>
          )}
          {(r.outcome === 'refuse' || r.coatAnyway !== '') && (
            <CoatAnyway readiness={r} onChange={props.onChange} />
          )}
          <div className="fields">
            {r.questions.map(({ question, answer }) => (
              <QuestionField
                key={question.id}
                slabId={r.slabId}
                units={props.units}
                question={question}
                answer={answer}
                onAnswer={(value) =>
                  props.onChange([
                    { type: 'answer', args: { slabId: r.slabId, question: question.id, answer: value } },
                  ])
                }
              />
            ))}
          </div>
        </Drawer>
      ))}
    </Section>
  );
}

function QuestionField(props: {
  readonly slabId: string;
  readonly units: UnitSystem;
  readonly question: Question;
  readonly answer: Answer;
  readonly onAnswer: (answer: string | number | null) => void;
}) {
  const { question, answer, onAnswer } = props;
  const { asks } = question;
  const help = <p className="dim">{question.how}</p>;
  if (asks.kind === 'number') {
    return (
      <div>
        <NumberField
          label={question.words}
          value={typeof answer === 'number' ? answer : null}
          unit={asks.unit}
          units={props.units}
          low={asks.low}
          high={asks.high}
          onEnter={onAnswer}
          onClear={() => onAnswer(null)}
        />
        {help}
      </div>
    );
  }
  return (
    <fieldset className="question">
      <legend>{question.words}</legend>
      {[...asks.options, ['', tr`not found out yet`] as const].map(([value, words]) => (
        <label key={value} className="switch">
          <input
            type="radio"
            name={`${props.slabId} ${question.id}`}
            checked={(answer ?? '') === value}
            onChange={() => onAnswer(value === '' ? null : value)}
          />
          {words}
        </label>
      ))}
      {help}
    </fieldset>
  );
}

/** The way past a "do not coat": a reason, which goes into the order and the quote. */
function CoatAnyway(props: {
  readonly readiness: Readiness;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { slabId, coatAnyway, findings } = props.readiness;
  const [reason, setReason] = useState('');
  const refused = findings.filter((f) => f.outcome === 'refuse');
  const say = (words: string | null) => {
    const over = Object.fromEntries(refused.map((f) => [f.questionId, f.answer]));
    props.onChange([{ type: 'coat-anyway', args: { slabId, reason: words, over } }]);
  };
  const open = refused.some((f) => !f.overruled && !f.final);
  return (
    <>
      {coatAnyway !== '' && (
        <p className="caution">
          {tr`Coated all the same: ${coatAnyway}`}{' '}
          <button type="button" onClick={() => say(null)}>{tr`Take the reason back`}</button>
        </p>
      )}
      {open && (
        <div className="field">
          <label
            htmlFor={`anyway-${slabId}`}
          >{tr`Coat it all the same, because (goes into the order and the quote)`}</label>
          <textarea
            id={`anyway-${slabId}`}
            rows={2}
            maxLength={5000}
            value={reason}
            onChange={(e) => setReason(e.target.value)}
          />
          <button
            type="button"
            disabled={reason.trim() === ''}
            onClick={() => say(reason)}
          >{tr`Coat it all the same`}</button>
        </div>
      )}
    </>
  );
}
