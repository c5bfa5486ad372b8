import { fromFrame } from '../../geometry/index.ts';
import { toggled } from '../board/tools/several.ts';
import type { Item } from '../board/tools/tool.ts';
import type { Edit } from '../job/edits/index.ts';
import { cornerLetter } from '../job/outline.ts';
import type { Id, Job } from '../job/types.ts';
import { zoneDescribed } from '../panels/describe-zone.ts';
import { Section } from '../panels/fields.tsx';
import { SeveralForm } from '../panels/several-form.tsx';
import { VoidForm } from '../panels/void-form.tsx';
import { type FormProps, ZoneForm } from '../panels/zone-form.tsx';
import type { Results } from '../results.ts';
import { groundFrame } from '../takeoff/ground.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { change, deleteSelected, newId, select, store, useApp } from './store.ts';

const onChange = (edits: readonly Edit[], merge?: string): void => {
  change(edits, merge ?? null);
};

/** The form of what is selected. */
export function Selected() {
  const results = useApp((s) => s.settled);
  const selection = useApp((s) => s.selection);
  if (!selection) return null;
  const { job, takeoff } = results;
  const form: FormProps = { job, units: job.settings.units, newId, onChange, onDelete: deleteSelected };
  const siblings = (zone: ZoneTakeoff) => takeoff.zones.filter((z) => z.slabId === zone.slabId).length;
  switch (selection.kind) {
    case 'several':
      return (
        <SeveralForm
          items={selection.items.map((item) => ({
            id: `${item.kind} ${item.id}`,
            words: itemName(results, item),
            leaveOut: () => select(toggled(selection, item)),
          }))}
          zones={takeoff.zones.filter((z) => selection.items.some((i) => i.kind === 'zone' && i.id === z.id))}
          describe={(zone, surface) =>
            zoneDescribed(job, zone, siblings(zone), anchorOf(job, zone), newId, { surface })
          }
          onChange={onChange}
          onDelete={deleteSelected}
        />
      );
    case 'zone': {
      const zone = takeoff.zones.find((z) => z.id === selection.id);
      if (!zone) return null;
      return (
        <ZoneForm
          {...form}
          zone={zone}
          siblings={siblings(zone)}
          anchor={anchorOf(job, zone)}
          frame={frameOf(job, zone.sheetId)}
          onWorking={(working) => store.setState({ working })}
        />
      );
    }
    case 'void': {
      const v = job.voids[selection.id];
      const inside = takeoff.voids.find((t) => t.id === selection.id);
      const scaled = v && job.sheets[v.sheetId]?.fit;
      return v ? (
        <VoidForm
          key={v.id}
          {...form}
          subject={v}
          insideAreaM2={scaled ? (inside?.insideAreaM2 ?? 0) : null}
          frame={frameOf(job, v.sheetId)}
        />
      ) : null;
    }
    case 'cut':
    case 'corner':
      return (
        <Section
          title={selection.kind === 'cut' ? tr`Cut` : tr`Corner`}
          actions={<button type="button" onClick={deleteSelected}>{tr`Delete`}</button>}
        >
          <p className="dim">
            {selection.kind === 'cut'
              ? tr`Splits its slab into zones.`
              : tr`Shared by all that meets there; drag it on the board.`}
          </p>
        </Section>
      );
  }
}

/** What a thing is called in a list. */
function itemName({ job, takeoff }: Results, item: Item): string {
  switch (item.kind) {
    case 'zone':
      return takeoff.zones.find((z) => z.id === item.id)?.name ?? job.slabs[item.id]?.name ?? tr`Slab`;
    case 'void':
      return job.voids[item.id]?.name ?? tr`Void`;
    case 'cut':
      return tr`Cut across ${job.slabs[job.cuts[item.id]?.slabId ?? '']?.name ?? tr`a slab`}`;
    case 'corner':
      return tr`Corner ${cornerLetter(job, item.id)} of ${job.slabs[item.slabId]?.name ?? tr`a slab`}`;
  }
}

const frameOf = (job: Job, sheetId: Id) => {
  const sheet = job.sheets[sheetId];
  return sheet ? groundFrame(job, sheet) : null;
};

/** A place well inside the zone, in the coordinates of its sheet: where a description is pinned. */
function anchorOf(job: Job, zone: ZoneTakeoff) {
  const frame = groundFrame(job, job.sheets[zone.sheetId]!);
  const inside = zone.label?.point ?? zone.faceRings[0]?.[0] ?? { x: 0, y: 0 };
  return frame ? fromFrame(frame, inside) : inside;
}
