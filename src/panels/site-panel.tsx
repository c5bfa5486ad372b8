import type { ReactNode } from 'react';
import type { Edit } from '../job/edits/index.ts';
import type { Job } from '../job/types.ts';
import { MEASURING_RULES, ruleOf } from '../takeoff/measuring-rules.ts';
import { language } from '../words/language.ts';
import { tr } from '../words/tr.ts';
import { Choice, NumberField, Section, TextField } from './fields.tsx';
import { rich } from './rich.tsx';

/** The job itself: its name, where it is kept, and other jobs to open. */
export function SitePanel(props: {
  readonly job: Job;
  readonly saved: 'yes' | 'no' | 'never';
  readonly kept: ReadonlyArray<{ readonly id: string; readonly name: string; readonly savedAt: number }>;
  readonly demos: ReadonlyArray<{ readonly id: string; readonly label: string }>;
  readonly onChange: (edits: readonly Edit[], merge?: string) => void;
  readonly onNew: () => void;
  readonly onOpen: () => void;
  readonly onSave: () => void;
  readonly onDemo: (id: string) => void;
  readonly onKept: (id: string) => void;
  /** The text of a kept job as a file. */
  readonly onKeptText: (id: string, name: string) => void;
  /** Days that this job can be gone back to, the last first. */
  readonly days: readonly string[];
  readonly onDay: (day: string) => void;
  /** How the desk looks on this device. */
  readonly look: ReactNode;
  readonly children: ReactNode;
}) {
  const { job, onChange } = props;
  const saved = {
    yes: tr`Kept in this browser.`,
    no: tr`Not kept yet.`,
    never: tr`Kept in this browser with the first change.`,
  }[props.saved];
  return (
    <>
      <Section title={tr`Job`}>
        <div className="fields">
          <TextField
            label={tr`Name of the job`}
            value={job.name}
            onChange={(name) =>
              onChange([{ type: 'rename-job', args: { name, note: job.note } }], 'job name')
            }
          />
          <TextField
            label={tr`Notes from the site`}
            long
            value={job.note}
            onChange={(note) =>
              onChange([{ type: 'rename-job', args: { name: job.name, note } }], 'job note')
            }
          />
          <Choice
            label={tr`Units`}
            value={job.settings.units}
            options={[
              ['metric', tr`metres and litres`],
              ['us', tr`feet and US gallons`],
            ]}
            onChange={(units) => onChange([{ type: 'change-settings', args: { units } }])}
          />
          <Choice
            label={tr`Area for payment by`}
            value={ruleOf(job).id}
            options={MEASURING_RULES.map((rule) => [rule.id, rule.name] as const)}
            onChange={(id) =>
              onChange([{ type: 'change-settings', args: { measuringRule: { id, voidsUpToM2: null } } }])
            }
          />
          {ruleOf(job).id !== 'net' && (
            <NumberField
              label={tr`Voids up to this stay in it (what the contract names goes first)`}
              value={ruleOf(job).voidsUpToM2}
              unit="m²"
              low={0}
              high={1000}
              onEnter={(voidsUpToM2) =>
                onChange([
                  {
                    type: 'change-settings',
                    args: { measuringRule: { id: ruleOf(job).id, voidsUpToM2 } },
                  },
                ])
              }
            />
          )}
        </div>
        {props.look}
        <p className="dim">{saved}</p>
        <div className="buttons">
          <button type="button" onClick={props.onSave}>{tr`Save to a file`}</button>
          <button type="button" onClick={props.onOpen}>{tr`Open a job file`}</button>
          <button type="button" onClick={props.onNew}>{tr`New job`}</button>
        </div>
      </Section>
      {props.children}
      {props.days.length > 0 && (
        <Section title={tr`As it was before`}>
          <p className="dim">{tr`Opened beside what it is now: nothing is lost by looking.`}</p>
          <ul className="rows">
            {props.days.map((day) => (
              <li key={day}>
                <button
                  type="button"
                  className="link"
                  onClick={() => props.onDay(day)}
                >{tr`before the first change of ${day}`}</button>
              </li>
            ))}
          </ul>
        </Section>
      )}
      {props.kept.length > 0 && (
        <Section title={tr`Kept in this browser`}>
          <ul className="rows">
            {props.kept.map((other) => (
              <li key={other.id}>
                <button type="button" className="link" onClick={() => props.onKept(other.id)}>
                  {other.name || tr`Without a name`}
                </button>
                <span className="dim">{new Date(other.savedAt).toLocaleString(language)}</span>
                <button
                  type="button"
                  className="link"
                  aria-label={tr`Save ${other.name || tr`the job without a name`} to a file`}
                  onClick={() => props.onKeptText(other.id, other.name)}
                >{tr`to a file`}</button>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Section title={tr`Look around in a demo job`}>
        <p className="dim">{tr`Invented places and numbers. Your own job stays kept in this browser.`}</p>
        <div className="buttons">
          {props.demos.map((demo) => (
            <button key={demo.id} type="button" onClick={() => props.onDemo(demo.id)}>
              {demo.label}
            </button>
          ))}
        </div>
        <p className="dim">
          {rich`slabwright works on this device alone and asks nobody. It is made with ${<a href="./licences.md" target="_blank" rel="noreferrer">{tr`open libraries, whose licences are here`}</a>}.`}
        </p>
      </Section>
    </>
  );
}
