import { useCallback, useMemo } from 'react';
import { pan, zoomAt } from '../board/camera.ts';
import type { Gesture } from '../board/gestures.ts';
import type { FindEnd } from '../board/snapping.ts';
import { toolById } from '../board/tools/index.ts';
import { Board } from '../board/view/board.tsx';
import { GROUP_TINTS } from '../board/view/palette.ts';
import { useSheetPicture } from '../board/view/sheet-picture.tsx';
import { drawnBays } from '../days/rollout/drawing.ts';
import { groupName, groupRows } from '../panels/zones-table.tsx';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { DEMOS } from './demos.ts';
import { addGrid, choosePicture, showDemo } from './files.ts';
import { useTapedSlab } from './measure-station.tsx';
import { selectedIds } from './selection.ts';
import {
  cameraOf,
  pointTool,
  sayProblem,
  setCamera,
  setViewSize,
  shownJob,
  store,
  tell,
  toolContext,
  useApp,
} from './store.ts';

/** The board with what the application knows put into it. */
export function BoardPane() {
  const state = useApp((s) => s);
  const { results, sheetId, view, toolId, toolState, selection, grouping, images, station } = state;
  const job = shownJob(state);
  const taped = useTapedSlab();
  const camera = cameraOf(state) ?? { centre: { x: 0, y: 0 }, zoom: 1 };
  const sheet = sheetId ? job.sheets[sheetId] : undefined;
  const onBroken = useCallback(() => {
    const broken = store.getState();
    const name = (broken.sheetId && shownJob(broken).sheets[broken.sheetId]?.name) || tr`Picture`;
    sayProblem({ code: 'image/broken', file: name });
  }, []);
  const picture = useSheetPicture(
    sheet?.picture ? images.get(sheet.picture.imageId) : undefined,
    sheet?.picture ?? null,
    camera,
    view,
    onBroken,
    onEnds,
  );
  const tool = toolById(toolId);
  const context = toolContext(state);
  const shown = context && { ...context, job };
  const marks = shown ? tool.marks(toolState, shown) : [];
  const group = useGroup();
  const lettered = station === 'Measure' ? (taped?.id ?? null) : null;
  const selected = useMemo(() => selectedIds(selection), [selection]);
  // The same scene as long as nothing in it changed: the board draws by that.
  const scene = useMemo(
    () => ({
      job,
      sheetId: sheetId ?? '',
      zones: results.takeoff.zones,
      units: job.settings.units,
      selected,
      letteredSlab: lettered,
      group: grouping === 'zone' ? null : group,
    }),
    [job, sheetId, results, selected, lettered, grouping, group],
  );
  const bays = useBays();
  return (
    <>
      <Board
        view={view}
        camera={camera}
        job={job}
        scene={scene}
        picture={sheet?.picture ? picture : null}
        blank={!sheet}
        bays={bays}
        marks={marks}
        label={tr`Board: the drawing. All it holds is also in the lists and tables beside it.`}
        magnified={toolId !== 'select' || selection !== null}
        cursor={toolId === 'select' ? 'default' : 'crosshair'}
        onGesture={onGesture}
        onFinish={onFinish}
        onSize={setViewSize}
      />
      {!sheet && <Begin />}
    </>
  );
}

/** Tools draw to the ends of a page's own lines. */
const onEnds = (findEnd: FindEnd | null): void => store.setState({ findEnd });

/** The order of rolling that is shown, if its slab is on this sheet. */
function useBays() {
  const rollout = useApp((s) => s.rollout);
  const results = useApp((s) => s.results);
  const station = useApp((s) => s.station);
  const found =
    rollout && station === 'Days' ? results.rollouts.find((r) => r.slabId === rollout.slabId) : undefined;
  const drawn = useMemo(() => (found ? drawnBays(found) : []), [found]);
  return useMemo(() => {
    if (!rollout || !found || drawn.length === 0) return null;
    const zones = results.takeoff.zones.filter((z) => z.slabId === rollout.slabId);
    const state = (n: number) => (n < rollout.step ? 'wet' : n === rollout.step ? 'now' : 'later');
    return {
      sheetId: zones[0]?.sheetId ?? '',
      rings: zones.flatMap((z) => z.netRings),
      bays: drawn.map((bay) => ({ ...bay, state: state(bay.number) }) as const),
    };
  }, [rollout, found, drawn, results]);
}

/** How zones are told apart when they are shown by nap, system or slab. */
function useGroup() {
  const results = useApp((s) => s.results);
  const grouping = useApp((s) => s.grouping);
  return useMemo(() => {
    if (grouping === 'zone') return null;
    const names = groupRows(results, grouping).map((g) => g.name);
    const byZone = new Map(
      results.takeoff.zones.map((zone, i) => [
        zone.id,
        groupName(results, { zone, coats: results.coating.zones[i]! }, grouping),
      ]),
    );
    return (zone: ZoneTakeoff) => {
      const label = byZone.get(zone.id) ?? '';
      return { label, tint: GROUP_TINTS[names.indexOf(label) % GROUP_TINTS.length] ?? GROUP_TINTS[0]! };
    };
  }, [results, grouping]);
}

/** Pointer moves are told to the tool once a frame. */
let waiting: Gesture | null = null;

function onGesture(gesture: Gesture): void {
  if (gesture.type === 'hover' || gesture.type === 'drag') {
    const first = waiting === null;
    waiting = gesture;
    if (first) requestAnimationFrame(flush);
    return;
  }
  flush();
  act(gesture);
}

function flush(): void {
  const gesture = waiting;
  waiting = null;
  if (gesture) act(gesture);
}

/** Where a drag that no tool wanted was last, so that it pans. */
let panFrom: { readonly x: number; readonly y: number } | null = null;

function act(gesture: Gesture): void {
  const { view } = store.getState();
  const camera = cameraOf(store.getState());
  if (!camera) return;
  switch (gesture.type) {
    case 'pan':
      setCamera(pan(camera, view, gesture.dx, gesture.dy));
      return;
    case 'zoom':
      setCamera(zoomAt(camera, view, gesture.at, gesture.factor));
      return;
    case 'interrupt':
      panFrom = null;
      if (store.getState().toolId === 'select') tell({ type: 'cancel' });
      return;
    default: {
      if (panFrom && gesture.type === 'drag') {
        setCamera(pan(camera, view, gesture.at.x - panFrom.x, gesture.at.y - panFrom.y));
        panFrom = gesture.at;
        return;
      }
      if (panFrom && gesture.type === 'release') {
        panFrom = null;
        return;
      }
      const taken = pointTool(gesture.type, gesture.at, gesture.kind);
      if (gesture.type === 'press') panFrom = taken ? null : gesture.at;
    }
  }
}

const onFinish = (): void => {
  const { toolId, toolState } = store.getState();
  if (toolById(toolId).canFinish(toolState)) tell({ type: 'finish' });
};

/** An empty job asks one question. */
function Begin() {
  return (
    <div className="begin">
      <h2>{tr`What do you have?`}</h2>
      <div className="buttons column">
        <button type="button" className="main" onClick={choosePicture}>{tr`A photo, plan or drawing`}</button>
        <button type="button" className="main" onClick={addGrid}>{tr`A tape: draw by typed lengths`}</button>
        <button
          type="button"
          onClick={() => void showDemo(DEMOS[0]!.id)}
        >{tr`Nothing yet: show me a demo job`}</button>
      </div>
      <p className="dim">{tr`You can also drop a file or paste a picture here: JPEG, PNG, HEIC, PDF, DXF, SVG, GeoJSON, GPX.`}</p>
    </div>
  );
}
