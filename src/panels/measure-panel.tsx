import { byName } from '../job/order.ts';
import type { Fit, Id, Job, Sheet } from '../job/types.ts';
import { lengthText } from '../units/format.ts';
import { LengthField, Section } from './fields.tsx';

/** Sheets with their scale, and everything drawn, as lists. */
export function MeasurePanel(props: {
  readonly job: Job;
  readonly sheetId: Id | null;
  readonly missingPictures: ReadonlySet<Id>;
  readonly onSheet: (id: Id) => void;
  readonly onPicture: () => void;
  readonly onGrid: () => void;
  readonly onScale: (sheetId: Id) => void;
  readonly onFit: (sheetId: Id, fit: Fit) => void;
  readonly onSelectSlab: (id: Id) => void;
  readonly onSelectVoid: (id: Id) => void;
  readonly onSelectCut: (id: Id) => void;
}) {
  const { job } = props;
  const sheets = Object.values(job.sheets).sort(byName);
  const slabs = Object.values(job.slabs).sort(byName);
  const voids = Object.values(job.voids).sort(byName);
  const cuts = Object.values(job.cuts).sort((a, b) => (a.id < b.id ? -1 : 1));
  return (
    <>
      <Section title="Sheets">
        {sheets.length === 0 && (
          <p className="empty">Open a photo or plan to trace over, or start on a blank grid.</p>
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
                <span className="wrong">Its picture is not here; open it again.</span>
              )}
              {sheet.picture && (
                <button type="button" onClick={() => props.onScale(sheet.id)}>
                  {sheet.fit ? 'Set the scale again' : 'Set the scale'}
                </button>
              )}
              {sheet.picture && sheet.fit?.kind === 'scale' && (
                <Reach
                  fit={sheet.fit}
                  units={job.settings.units}
                  onFit={(fit) => props.onFit(sheet.id, fit)}
                />
              )}
            </li>
          ))}
        </ul>
        <div className="buttons">
          <button type="button" onClick={props.onPicture}>
            Open a photo or plan
          </button>
          <button type="button" onClick={props.onGrid}>
            Blank grid
          </button>
        </div>
      </Section>
      <Section title="Slabs">
        {slabs.length === 0 && <p className="empty">Take the Slab tool and tap round the first slab.</p>}
        <List items={slabs} onSelect={props.onSelectSlab} words={(s) => `${s.corners.length} corners`} />
      </Section>
      {cuts.length > 0 && (
        <Section title="Cuts">
          <List
            items={cuts.map((c, i) => ({ id: c.id, name: `Cut ${i + 1}`, slab: job.slabs[c.slabId]!.name }))}
            onSelect={props.onSelectCut}
            words={(c) => `across ${c.slab}`}
          />
        </Section>
      )}
      {voids.length > 0 && (
        <Section title="Taken out">
          <List items={voids} onSelect={props.onSelectVoid} words={(v) => v.kind} />
        </Section>
      )}
    </>
  );
}

/** On a photo taken at an angle one scale holds only near the known length: how far is the user's to say. */
function Reach(props: {
  readonly fit: Extract<Fit, { kind: 'scale' }>;
  readonly units: Job['settings']['units'];
  readonly onFit: (fit: Fit) => void;
}) {
  const { fit, units } = props;
  const reason = fit.reach?.reason ?? 'one scale holds only near the known length';
  return (
    <div className="reach">
      <LengthField
        label="Photo at an angle? Believe the scale within"
        valueM={fit.reach?.distanceM ?? null}
        units={units}
        onEnter={(distanceM) => props.onFit({ ...fit, reach: { distanceM, reason } })}
      />
      {fit.reach && (
        <button type="button" onClick={() => props.onFit({ ...fit, reach: null })}>
          Everywhere
        </button>
      )}
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
      return 'no scale yet';
    case 'metric':
      return 'metres';
    case 'scale': {
      const known = fit.lengths.map((l) => lengthText(l.lengthM, units)).join(', ');
      const reach = fit.reach ? `; believed within ${lengthText(fit.reach.distanceM, units)} of it` : '';
      return `${fit.stretched ? 'two scales' : 'scale'} from ${known}${reach}`;
    }
    case 'drawing':
      return `drawing, one unit is ${lengthText(fit.metresPerUnit, units)}`;
    case 'page':
      return `page at 1 : ${fit.ratio}`;
    case 'marks':
      return `straightened by ${fit.marks.length} marks`;
    case 'straightened':
      return `straightened from ${job.sheets[fit.sheetId]?.name ?? 'a photo'}`;
    case 'georeferenced':
      return `${fit.from === 'walk' ? 'walked' : 'map'} near ${fit.latitude.toFixed(4)}°, ${fit.longitude.toFixed(4)}°`;
  }
}
