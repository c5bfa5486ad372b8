import { freeName } from '../../job/names.ts';
import { tr } from '../../words/tr.ts';
import { outlineTool } from './outline.ts';
import { newCorners } from './path.ts';

/** Traces a slab. */
export const slabTool = outlineTool({
  id: 'slab',
  label: tr`Slab`,
  key: 's',
  firstHint: tr`Tap the first corner of the slab.`,
  made(path, { job, sheetId, surface, newId }) {
    const id = newId('s');
    const name = freeName(tr`Slab`, Object.values(job.slabs));
    const corners = newCorners(path, newId);
    return {
      edits: [{ type: 'add-slab', args: { id, name, sheetId, corners, surface } }],
      select: { kind: 'zone', id: `${id}/1` },
    };
  },
});
