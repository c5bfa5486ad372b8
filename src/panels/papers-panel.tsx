import { EXPORTS, type Export } from '../exports/index.ts';
import { Section } from './fields.tsx';

/** What can be taken away. */
export function PapersPanel(props: {
  readonly empty: boolean;
  readonly onExport: (kind: Export) => void;
  readonly onSave: () => void;
}) {
  return (
    <Section title="Take it away">
      {props.empty && <p className="empty">There is nothing to hand over yet: trace a slab first.</p>}
      <div className="buttons column">
        {EXPORTS.map((kind) => (
          <button key={kind.ending} type="button" disabled={props.empty} onClick={() => props.onExport(kind)}>
            {kind.label}
          </button>
        ))}
        <button type="button" onClick={props.onSave}>
          The job itself, pictures inside
        </button>
      </div>
    </Section>
  );
}
