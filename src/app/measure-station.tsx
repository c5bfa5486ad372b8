import type { Fit, Id, Slab } from '../job/types.ts';
import { DrawByNumbers } from '../panels/draw-by-numbers.tsx';
import { MeasurePanel } from '../panels/measure-panel.tsx';
import { OpeningSection } from '../panels/opening-section.tsx';
import { SheetSection } from '../panels/sheet-section.tsx';
import { TapeSection } from '../panels/tape-section.tsx';
import { groundFrame } from '../takeoff/ground.ts';
import { slabIdOf } from '../takeoff/zone.ts';
import { addGrid, choosePicture } from './files.ts';
import { leaveOpening, openAsChosen } from './open-file.ts';
import { change, newId, openSheet, shownJob, store, takeTool, useApp } from './store.ts';
import { makeStraightPicture } from './straighten.ts';
import { changeTapes, slabByTape } from './tapes.ts';

/** Sheets, how they come to metres, what was taped, and all that is drawn. */
export function MeasureStation({ onShow }: { readonly onShow: (id: Id) => void }) {
  const job = useApp(shownJob);
  const sheetId = useApp((s) => s.sheetId);
  const images = useApp((s) => s.images);
  const opening = useApp((s) => s.opening);
  const takeoff = useApp((s) => s.settled.takeoff);
  const missing = Object.values(job.sheets).filter((s) => s.picture && !images.has(s.picture.imageId));
  const sheet = sheetId ? job.sheets[sheetId] : undefined;
  const frame = sheet ? groundFrame(job, sheet) : null;
  const slab = useTapedSlab();
  const solved = takeoff.sheets.find((s) => s.id === sheetId);
  const type = sheet?.picture && images.get(sheet.picture.imageId)?.type;
  return (
    <>
      {opening && (
        <OpeningSection
          key={`${opening.name} ${opening.pages} ${opening.layers.length}`}
          {...opening}
          onOpen={(chosen) => void openAsChosen(chosen)}
          onLeave={leaveOpening}
        />
      )}
      <MeasurePanel
        job={job}
        sheetId={sheetId}
        missingPictures={new Set(missing.map((s) => s.id))}
        onSheet={openSheet}
        onPicture={choosePicture}
        onGrid={addGrid}
        onByTape={slabByTape}
        onSelectSlab={onShow}
        onSelectVoid={onShow}
        onSelectCut={onShow}
      >
        {sheet && (
          <SheetSection
            key={sheet.id}
            job={job}
            sheet={sheet}
            solved={solved}
            drawn={type === 'image/svg+xml'}
            onFit={(fit: Fit) => change([{ type: 'set-fit', args: { sheetId: sheet.id, fit } }])}
            onScale={takeScale}
            onMarks={() => takeTool('marks')}
            onStraight={() => takeTool('straight')}
            onPictureOf={
              solved && 'frame' in solved.fit && type ? () => void makeStraightPicture(sheet.id) : null
            }
            onRemove={() => change([{ type: 'remove-sheet', args: { sheetId: sheet.id } }])}
          />
        )}
        {sheet && frame && (
          <DrawByNumbers
            key={`numbers ${sheet.id}`}
            job={job}
            sheetId={sheet.id}
            frame={frame}
            units={job.settings.units}
            newId={newId}
            onChange={(edits) => change(edits)}
          />
        )}
        {slab && (
          <TapeSection
            key={slab.id}
            job={job}
            slab={slab}
            figures={takeoff.figures}
            newId={newId}
            onTapes={changeTapes}
          />
        )}
      </MeasurePanel>
    </>
  );
}

/** The slab whose tapes are shown: the one selected, or the first, on a sheet in metres. */
export function useTapedSlab(): Slab | null {
  const job = useApp(shownJob);
  const sheetId = useApp((s) => s.sheetId);
  const selection = useApp((s) => s.selection);
  const takeoff = useApp((s) => s.settled.takeoff);
  const sheet = sheetId ? job.sheets[sheetId] : undefined;
  if (sheet?.fit?.kind !== 'metric') return null;
  const here = Object.values(job.slabs).filter((s) => s.sheetId === sheet.id);
  const id =
    selection?.kind === 'zone'
      ? slabIdOf(takeoff, selection.id)
      : selection?.kind === 'corner'
        ? selection.slabId
        : null;
  return here.find((s) => s.id === id) ?? here[0] ?? null;
}

/** Takes the scale tool, to add to the known lengths or to begin again. */
function takeScale(more: boolean): void {
  takeTool('scale');
  if (more) store.setState({ toolState: { ...(store.getState().toolState as object), more: true } });
}
