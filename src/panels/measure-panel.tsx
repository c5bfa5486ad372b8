import { type ReactNode, useState } from 'react';
import { byName } from '../job/order.ts';
import type { Id, Job, Sheet } from '../job/types.ts';
import { lengthText } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { Choice, Section } from './fields.tsx';

/** Sheets with their scale, and everything drawn, as lists. */
export function MeasurePanel(props: {
  readonly job: Job;
  readonly sheetId: Id | null;
  readonly missingPictures: ReadonlySet<Id>;
  readonly onSheet: (id: Id) => void;
  readonly onPicture: () => void;
  readonly onGrid: () => void;
  readonly onByTape: (corners: number) => void;
  readonly onSelectSlab: (id: Id) => void;
  readonly onSelectVoid: (id: Id) => void;
  readonly onSelectCut: (id: Id) => void;
  /** The sheet in hand and what was taped on it. */
  readonly children: ReactNode;
}) {
  const { job } = props;
  const sheets = Object.values(job.sheets).sort(byName);
  const slabs = Object.values(job.slabs).sort(byName);
  const voids = Object.values(job.voids).sort(byName);
  const cuts = Object.values(job.cuts).sort((a, b) => (a.id < b.id ? -1 : 1));
  return (
    <>
      <Section title={tr`Sheets`}>
        {sheets.length === 0 && (
          <p className="empty">{tr`Open a photo or plan to trace over, or start on a blank grid.`}</p>
        )}
        <ul className="rows">
          {sheets.map((sheet) => (
            <li key={sheet.id} className={sheet.id === props.sheetId ? 'chosen' : ''}>
              <button
                type="button"
                className="link"
                aria-pressed={sheet.id === props.sheetId}
                onClick={() => props.onSheet(sheet.id)}
              >
                {sheet.name}
              </button>
              <span className="dim">{fitWords(sheet, job)}</span>
              {props.missingPictures.has(sheet.id) && (
                <span className="wrong">{tr`Its picture is not here; open it again.`}</span>
              )}
            </li>
          ))}
        </ul>
        <div className="buttons">
          <button type="button" onClick={props.onPicture}>{tr`Open a photo, plan or drawing`}</button>
          <button type="button" onClick={props.onGrid}>{tr`Blank grid`}</button>
        </div>
        <ByTape onByTape={props.onByTape} />
      </Section>
      {props.children}
      <Section title={tr`Slabs`}>
        {slabs.length === 0 && (
          <p className="empty">{tr`Take the Slab tool and tap round the first slab.`}</p>
        )}
        <List items={slabs} onSelect={props.onSelectSlab} words={(s) => tr`${s.corners.length} corners`} />
      </Section>
      {cuts.length > 0 && (
        <Section title={tr`Cuts`}>
          <List
            items={cuts.map((c, i) => ({
              id: c.id,
              name: tr`Cut ${i + 1}`,
              slab: job.slabs[c.slabId]!.name,
            }))}
            onSelect={props.onSelectCut}
            words={(c) => tr`across ${c.slab}`}
          />
        </Section>
      )}
      {voids.length > 0 && (
        <Section title={tr`Taken out`}>
          <List items={voids} onSelect={props.onSelectVoid} words={(v) => v.kind} />
        </Section>
      )}
    </>
  );
}

/** A slab whose shape comes from what was taped. */
function ByTape({ onByTape }: { readonly onByTape: (corners: number) => void }) {
  const [corners, setCorners] = useState('4');
  return (
    <div className="fields">
      <Choice
        label={tr`Or a slab by tape alone, with`}
        value={corners}
        options={[3, 4, 5, 6, 7, 8, 10, 12].map((n) => [String(n), tr`${n} corners`] as const)}
        onChange={setCorners}
      />
      <button type="button" onClick={() => onByTape(Number(corners))}>{tr`Begin by tape`}</button>
    </div>
  );
}

function List<T extends { readonly id: Id; readonly name: string }>(props: {
  readonly items: readonly T[];
  readonly words: (item: T) => string;
  readonly onSelect: (id: Id) => void;
}) {
  return (
    <ul className="rows">
      {props.items.map((item) => (
        <li key={item.id}>
          <button type="button" className="link" onClick={() => props.onSelect(item.id)}>
            {item.name}
          </button>
          <span className="dim">{props.words(item)}</span>
        </li>
      ))}
    </ul>
  );
}

function fitWords(sheet: Sheet, job: Job): string {
  const { fit } = sheet;
  const { units } = job.settings;
  switch (fit?.kind) {
    case undefined:
      return tr`no scale yet`;
    case 'metric':
      return tr`metres`;
    case 'scale': {
      const known = fit.lengths.map((l) => lengthText(l.lengthM, units)).join(', ');
      const reach = fit.reach ? tr`; believed within ${lengthText(fit.reach.distanceM, units)} of it` : '';
      return tr`${fit.stretched ? tr`two scales` : tr`scale`} from ${known}${reach}`;
    }
    case 'drawing':
      return tr`drawing, one unit is ${lengthText(fit.metresPerUnit, units)}`;
    case 'page':
      return tr`page at 1 : ${fit.ratio}`;
    case 'marks':
      return tr`straightened by ${fit.marks.length} marks`;
    case 'straightened':
      return tr`straightened from ${job.sheets[fit.sheetId]?.name ?? tr`a photo`}`;
    case 'georeferenced':
      return tr`${fit.from === 'walk' ? tr`walked` : tr`map`} near ${fit.latitude.toFixed(4)}°, ${fit.longitude.toFixed(4)}°`;
  }
}
