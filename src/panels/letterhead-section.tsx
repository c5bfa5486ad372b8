import { type Numbering, offerNumber } from '../job/book.ts';
import type { Edit } from '../job/edits/index.ts';
import { NO_BUSINESS, NO_CUSTOMER } from '../job/paper-types.ts';
import type { Job } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import { Drawer } from './drawer.tsx';
import { Choice, NumberField, Section, TextField } from './fields.tsx';

/** Who the papers are for, and what the offer goes by. */
export function CustomerSection(props: {
  readonly job: Job;
  readonly numbering: Numbering;
  readonly onChange: (edits: readonly Edit[], merge?: string) => void;
  readonly onNumber: () => void;
}) {
  const { job, numbering, onChange } = props;
  const customer = { ...NO_CUSTOMER, ...job.customer };
  const to = (change: Partial<typeof customer>) =>
    onChange([{ type: 'set-customer', args: change }], `customer ${Object.keys(change)[0]}`);
  return (
    <Section title={tr`For`}>
      <div className="form">
        <TextField label={tr`Customer`} value={customer.name} onChange={(name) => to({ name })} />
        <TextField
          label={tr`Address`}
          long
          value={customer.address}
          onChange={(address) => to({ address })}
        />
        <TextField label={tr`Site, if elsewhere`} value={customer.site} onChange={(site) => to({ site })} />
        {job.offer ? (
          <div className="pair">
            <TextField
              label={tr`Offer number`}
              value={job.offer.number}
              onChange={(number) =>
                onChange(
                  [{ type: 'name-offer', args: { offer: { ...job.offer!, number: number.slice(0, 60) } } }],
                  'offer number',
                )
              }
            />
            <div className="field">
              <label htmlFor="offer-day">{tr`Day`}</label>
              <input
                id="offer-day"
                type="date"
                value={job.offer.on}
                onChange={(e) =>
                  e.target.value &&
                  onChange([{ type: 'name-offer', args: { offer: { ...job.offer!, on: e.target.value } } }])
                }
              />
            </div>
          </div>
        ) : (
          <button
            type="button"
            onClick={props.onNumber}
          >{tr`Number the offer: ${offerNumber(numbering)}`}</button>
        )}
      </div>
    </Section>
  );
}

/** Who the papers are from, how offers are numbered, and where all that is kept. */
export function LetterheadSection(props: {
  readonly job: Job;
  readonly numbering: Numbering;
  readonly onChange: (edits: readonly Edit[], merge?: string) => void;
  readonly onNumbering: (numbering: Numbering) => void;
  readonly onLogo: () => void;
  readonly onSaveBook: () => void;
  readonly onOpenBook: () => void;
}) {
  const { job, numbering, onChange } = props;
  const business = { ...NO_BUSINESS, ...job.business };
  const from = (change: Partial<typeof business>) =>
    onChange([{ type: 'set-business', args: change }], `business ${Object.keys(change)[0]}`);
  return (
    <Section title={tr`From whom`}>
      <p className="dim">{tr`Entered once: later jobs start with it.`}</p>
      <Drawer name="letterhead" open={business.name === ''} summary={business.name || tr`Your letterhead`}>
        <div className="form">
          <TextField label={tr`Business`} value={business.name} onChange={(name) => from({ name })} />
          <TextField
            label={tr`Address, telephone, registration`}
            long
            value={business.details}
            onChange={(details) => from({ details })}
          />
          <TextField
            label={tr`Terms of every offer`}
            long
            value={business.terms}
            onChange={(terms) => from({ terms })}
          />
          <NumberField
            label={tr`An offer holds`}
            value={business.validDays}
            unit="days"
            low={0}
            high={3650}
            onEnter={(days) => from({ validDays: Math.round(days) })}
          />
          <Choice
            label={tr`Paper`}
            value={business.paper ?? ''}
            options={[
              ['', job.settings.units === 'us' ? tr`as usual here: US letter` : tr`as usual here: A4`],
              ['A4', 'A4'],
              ['LETTER', tr`US letter`],
            ]}
            onChange={(paper) =>
              onChange([{ type: 'set-business', args: { paper: paper === '' ? undefined : paper } }])
            }
          />
          {business.logo && (
            <img
              className="logo"
              alt={tr`Logo`}
              src={`data:${business.logo.type};base64,${business.logo.base64}`}
            />
          )}
          <div className="buttons">
            <button type="button" onClick={props.onLogo}>
              {business.logo ? tr`Another logo` : tr`Add a logo`}
            </button>
            {business.logo && (
              <button type="button" onClick={() => from({ logo: null })}>{tr`Without a logo`}</button>
            )}
          </div>
          <div className="pair">
            <TextField
              label={tr`Before offer numbers`}
              value={numbering.prefix}
              onChange={(prefix) => props.onNumbering({ ...numbering, prefix: prefix.slice(0, 40) })}
            />
            <NumberField
              label={tr`Next number`}
              value={numbering.next}
              unit="1"
              low={0}
              high={1e9}
              onEnter={(next) => props.onNumbering({ ...numbering, next: Math.round(next) })}
            />
          </div>
        </div>
      </Drawer>
      <div className="buttons">
        <button type="button" onClick={props.onSaveBook}>{tr`Save what later jobs start with`}</button>
        <button type="button" onClick={props.onOpenBook}>{tr`Take it from a file`}</button>
      </div>
    </Section>
  );
}
