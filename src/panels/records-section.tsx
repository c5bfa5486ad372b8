import { useState } from 'react';
import { nextCoats, paintUsed, productName, recordsOf, WORK_WORDS } from '../coating/handover.ts';
import type { Edit } from '../job/edits/index.ts';
import { RECORDED_WORK, type WorkRecord } from '../job/paper-types.ts';
import type { Id } from '../job/types.ts';
import type { Results } from '../results.ts';
import { plainNumber, volumeNumber, volumeUnit } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { Choice, NumberField, Section, TextField } from './fields.tsx';

type Draft = Omit<WorkRecord, 'id' | 'photos'>;

/** Work as it was done: paint, hours, batches and photos beside what was worked out. */
export function RecordsSection(props: {
  readonly results: Results;
  readonly today: string;
  readonly newId: (prefix: string) => Id;
  /** Whether the change was taken. */
  readonly onChange: (edits: readonly Edit[]) => boolean;
  readonly onPhoto: (record: WorkRecord) => void;
}) {
  const { job, takeoff, coating, quote } = props.results;
  const { units } = job.settings;
  const empty: Draft = {
    on: props.today,
    slabId: '',
    work: 'coat',
    productId: coating.paints[0]?.product.id ?? '',
    usedL: null,
    hoursH: null,
    batch: '',
    note: '',
  };
  const [draft, setDraft] = useState<Draft>(empty);
  const records = recordsOf(job);
  const products = [...new Map(coating.paints.map((p) => [p.product.id, p.product.name]))];
  // A product that was chosen before the first coat there was, or that is not used any more, is none.
  const productId = products.some(([id]) => id === draft.productId)
    ? draft.productId
    : (products[0]?.[0] ?? '');
  const hours = records.reduce((sum, r) => sum + (r.hoursH ?? 0), 0);
  const again = new Map<string, string[]>();
  for (const c of nextCoats(job, takeoff.zones, coating)) {
    if (c.coatedOn === null) continue;
    const words = tr`coated on ${c.coatedOn}, expected to want another coat after about ${plainNumber(c.years.value)} years, which nobody can promise.`;
    again.set(words, [...(again.get(words) ?? []), c.zone]);
  }
  const write = () => {
    const id = props.newId('record');
    const coat = draft.work === 'coat';
    // What was typed before another kind of work was chosen is not written with it.
    const paint = coat ? { productId } : { productId: '', usedL: null, batch: '' };
    const record = { ...draft, ...paint, id, photos: [] };
    if (!props.onChange([{ type: 'set-record', args: record }])) return;
    setDraft({ ...empty, on: draft.on, slabId: draft.slabId, productId: draft.productId });
  };
  return (
    <Section title={tr`As it was done`}>
      {records.length === 0 && (
        <p className="dim">{tr`Write down paint, hours and batch numbers as the work goes: they make the handover.`}</p>
      )}
      {records.length > 0 && (
        <ul className="records">
          {records.map((r) => (
            <li key={r.id}>
              <span>
                {r.on}:{' '}
                {r.slabId === '' ? tr`all slabs` : (job.slabs[r.slabId]?.name ?? tr`a slab that is gone`)}{' '}
                {WORK_WORDS[r.work]}
                {r.productId && `, ${productName(r.productId)}`}
                {r.usedL !== null && `, ${volumeNumber(r.usedL, units)} ${volumeUnit(units)}`}
                {r.hoursH !== null && `, ${plainNumber(r.hoursH, 4)} h`}
                {r.batch && tr`, batch ${r.batch}`}
                {r.note && ` — ${r.note}`}
                {r.photos.length > 0 &&
                  ` (${r.photos.length} ${r.photos.length === 1 ? tr`photo` : tr`photos`})`}
              </span>
              <span className="buttons">
                <button type="button" onClick={() => props.onPhoto(r)}>{tr`Add a photo`}</button>
                {r.photos.length > 0 && (
                  <button
                    type="button"
                    onClick={() =>
                      props.onChange([{ type: 'set-record', args: { ...r, photos: r.photos.slice(0, -1) } }])
                    }
                  >{tr`Without the last photo`}</button>
                )}
                <button
                  type="button"
                  onClick={() => props.onChange([{ type: 'remove-record', args: { recordId: r.id } }])}
                >{tr`Strike out`}</button>
              </span>
            </li>
          ))}
        </ul>
      )}
      <div className="form">
        <div className="pair">
          <div className="field">
            <label htmlFor="record-day">{tr`Day`}</label>
            <input
              id="record-day"
              type="date"
              value={draft.on}
              onChange={(e) => e.target.value && setDraft({ ...draft, on: e.target.value })}
            />
          </div>
          <Choice
            label={tr`Work`}
            value={draft.work}
            options={RECORDED_WORK.map((w) => [w, WORK_WORDS[w]] as const)}
            onChange={(work) => setDraft({ ...draft, work })}
          />
        </div>
        <Choice
          label={tr`Where`}
          value={draft.slabId}
          options={[['', tr`all slabs`], ...takeoff.slabs.map((s) => [s.id, s.name] as const)]}
          onChange={(slabId) => setDraft({ ...draft, slabId })}
        />
        {draft.work === 'coat' && products.length > 0 && (
          <>
            <Choice
              label={tr`Product`}
              value={productId}
              options={products}
              onChange={(productId) => setDraft({ ...draft, productId })}
            />
            <NumberField
              label={tr`Paint used, without thinner`}
              value={draft.usedL}
              unit="L"
              units={units}
              low={0}
              high={1e6}
              onEnter={(usedL) => setDraft({ ...draft, usedL })}
              onClear={() => setDraft({ ...draft, usedL: null })}
            />
            <TextField
              label={tr`Batch numbers on the packs`}
              value={draft.batch}
              onChange={(batch) => setDraft({ ...draft, batch })}
            />
          </>
        )}
        <NumberField
          label={tr`Hours of one person`}
          value={draft.hoursH}
          unit="h"
          low={0}
          high={1e5}
          onEnter={(hoursH) => setDraft({ ...draft, hoursH })}
          onClear={() => setDraft({ ...draft, hoursH: null })}
        />
        <TextField label={tr`Note`} value={draft.note} onChange={(note) => setDraft({ ...draft, note })} />
        <button type="button" onClick={write}>{tr`Write it down`}</button>
      </div>
      {records.length > 0 && (
        <div className="scroll">
          <table className="totals">
            <thead>
              <tr>
                <th scope="col">{tr`Against what was worked out`}</th>
                <th scope="col" className="num">{tr`Worked out`}</th>
                <th scope="col" className="num">{tr`Used`}</th>
              </tr>
            </thead>
            <tbody>
              {paintUsed(job, coating).map((p) => (
                <tr key={p.productId}>
                  <th scope="row">
                    {p.name}, {volumeUnit(units)}
                  </th>
                  <td className="num">{volumeNumber(p.plannedL, units)}</td>
                  <td className="num">{p.usedL === null ? '—' : volumeNumber(p.usedL, units)}</td>
                </tr>
              ))}
              <tr>
                <th scope="row">{tr`hours of one person, h`}</th>
                <td className="num">{quote.hours.work.value.toFixed(1)}</td>
                <td className="num">{hours > 0 ? hours.toFixed(1) : '—'}</td>
              </tr>
            </tbody>
          </table>
        </div>
      )}
      {[...again].map(([words, zones]) => (
        <p key={words} className="dim">
          {zones.join(', ')}: {words}
        </p>
      ))}
    </Section>
  );
}
