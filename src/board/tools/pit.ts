import { freeName } from '../../job/names.ts';
import { tr } from '../../words/tr.ts';
import { outlineTool } from './outline.ts';

/** Takes out anything with an outline: a pit, planter or plinth. */
export const pitTool = outlineTool({
  id: 'pit',
  label: tr`Pit`,
  key: 'i',
  snapsClose: true,
  firstHint: tr`Tap the first corner of the pit, planter or plinth to take out.`,
  made(path, { job, sheetId, newId }) {
    const id = newId('v');
    const name = freeName(tr`Pit`, Object.values(job.voids));
    const corners = path.corners.map(({ x, y, via }) => ({ x, y, via }));
    return {
      edits: [
        { type: 'add-void', args: { id, name, kind: 'pit', sheetId, shape: { type: 'outline', corners } } },
      ],
      select: { kind: 'void', id },
    };
  },
});
