import { createStore, useStore } from 'zustand';
import { boxOf } from '../../geometry/index.ts';
import { type Camera, fitBox, toSheet, type View } from '../board/camera.ts';
import { type PointerKind, REACH } from '../board/gestures.ts';
import { type FindEnd, snap } from '../board/snapping.ts';
import { TOOLS, toolById } from '../board/tools/index.ts';
import { itemsOf, removal } from '../board/tools/several.ts';
import type { Selection, ToolContext, ToolInput, ToolStep } from '../board/tools/tool.ts';
import type { ImportOptions, Layer } from '../imports/index.ts';
import { type Book, emptyBook } from '../job/book.ts';
import { applyEdit, type Edit } from '../job/edits/index.ts';
import { commitAll, type Entry, type History, redo, startHistory, undo } from '../job/history.ts';
import { outlinePoints, slabRing } from '../job/outline.ts';
import { DEFAULT_SURFACE, emptyJob, type Id, type Job, type Surface } from '../job/types.ts';
import { type Problem, sentence } from '../problem.ts';
import { type Results, resultsKeeper } from '../results.ts';
import { groundFrame } from '../takeoff/ground.ts';
import type { Metres } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';
import { randomId } from './random-id.ts';
import { stillThere } from './selection.ts';
import type { DockHeight, Grouping, Station } from './stations.ts';
import { keptTheme, type Theme } from './theme.ts';

/** A file that was read and waits for something only a person knows: its page, its password, its layers. */
export interface Opening {
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly options: ImportOptions;
  readonly pages: number;
  readonly layers: readonly Layer[];
  readonly locked: boolean;
  /** What is wrong with what was chosen so far. */
  readonly wrong: string;
}

export interface AppState {
  readonly history: History;
  /** The job with the change in hand, while something is dragged. */
  readonly preview: Job | null;
  readonly results: Results;
  /** The numbers that panels show: while something is dragged they follow a little later than the board. */
  readonly settled: Results;
  readonly images: ReadonlyMap<Id, Blob>;
  readonly sheetId: Id | null;
  readonly cameras: Readonly<Record<Id, Camera>>;
  readonly view: View;
  readonly toolId: string;
  readonly toolState: unknown;
  readonly selection: Selection | null;
  readonly snapOff: boolean;
  /** Shift is held. */
  readonly shift: boolean;
  readonly reachPx: number;
  readonly station: Station;
  readonly grouping: Grouping;
  readonly dock: DockHeight;
  readonly message: {
    readonly text: string;
    readonly kind: 'problem' | 'news';
    /** What can be done about it, in a word or two. */
    readonly action?: { readonly words: string; readonly run: () => void };
  } | null;
  readonly working: Quantity | null;
  /** The order of rolling on the board: a slab, and the bay in hand; 0 shows all, one past the last shows it done. */
  readonly rollout: { readonly slabId: Id; readonly step: number } | null;
  readonly legendOpen: boolean;
  /** The list of commands is open. */
  readonly commanding: boolean;
  readonly theme: Theme;
  readonly saved: 'yes' | 'no' | 'never';
  /** Finds ends of lines of the picture in view, where it has lines. */
  readonly findEnd: FindEnd | null;
  /** A file that waits for its page, password or layers to be chosen. */
  readonly opening: Opening | null;
  /** The file that is being read. */
  readonly reading: string | null;
  /** The ending of the file that is being written. */
  readonly writing: string | null;
  /** What a new job starts with. */
  readonly book: Book;
}

const keeper = resultsKeeper();
const firstJob = emptyJob('job', tr`New job`);

export const store = createStore<AppState>(() => ({
  history: startHistory(firstJob),
  preview: null,
  results: keeper(firstJob),
  settled: keeper(firstJob),
  images: new Map(),
  sheetId: null,
  cameras: {},
  view: { width: 800, height: 600, yUp: false },
  toolId: 'select',
  toolState: toolById('select').start,
  selection: null,
  snapOff: false,
  shift: false,
  reachPx: REACH.mouse,
  station: 'Zones',
  grouping: 'zone',
  dock: 'half',
  message: null,
  working: null,
  rollout: null,
  legendOpen: false,
  commanding: false,
  theme: keptTheme(),
  saved: 'never',
  findEnd: null,
  opening: null,
  reading: null,
  writing: null,
  book: emptyBook,
}));

/** A part of the state; the component renders again only when that part changes. */
export const useApp = <T>(pick: (state: AppState) => T): T => useStore(store, pick);

const set = store.setState;
const get = store.getState;

export { randomId as newId } from './random-id.ts';

export const currentJob = (state: AppState = get()): Job => state.history.job;
export const shownJob = (state: AppState = get()): Job => state.preview ?? state.history.job;

/** Says something in one sentence until the next thing happens. */
export const say = (text: string, kind: 'problem' | 'news' = 'news'): void =>
  set({ message: { text, kind } });
export const sayProblem = (problem: Problem): void => say(sentence(problem), 'problem');

// ---- the job -------------------------------------------------------------------------------------------------

/** Who is told of every step, so that it is kept. */
let note: (entry: Entry) => void = () => {};
export const onStep = (told: (entry: Entry) => void): void => {
  note = told;
};

/** Opens a job in place of the one that is open. */
export const showJob = (job: Job, images: ReadonlyMap<Id, Blob>): void =>
  showHistory(startHistory(job), images);

/** Opens a job with the steps that led to it. */
export function showHistory(history: History, images: ReadonlyMap<Id, Blob>): void {
  const { job } = history;
  const sheetId = Object.keys(job.sheets).sort()[0] ?? null;
  set({
    history,
    preview: null,
    results: keeper(job),
    images,
    sheetId,
    cameras: {},
    toolId: 'select',
    toolState: toolById('select').start,
    selection: null,
    message: null,
    working: null,
    rollout: null,
    saved: 'never',
  });
  openSheet(sheetId);
}

/** Makes changes as one step; a refused change leaves the job as it was and says why. */
export function change(edits: readonly Edit[], merge: string | null = null): boolean {
  const next = commitAll(get().history, edits, merge);
  if (!next.ok) {
    set({ preview: null, results: keeper(get().history.job) });
    sayProblem(next.problem);
    return false;
  }
  if (next.value !== get().history) {
    setHistory(next.value);
    note({ do: edits, merge });
  } else setHistory(next.value);
  return true;
}

/** Puts a history in place that holds steps of another tab; what is looked at stays. */
export const followHistory = (history: History): void => setHistory(history);

function setHistory(history: History): void {
  const state = get();
  const { job } = history;
  const sheetId = state.sheetId && Object.hasOwn(job.sheets, state.sheetId) ? state.sheetId : null;
  const results = keeper(job);
  set({
    history,
    preview: null,
    results,
    sheetId: sheetId ?? Object.keys(job.sheets).sort()[0] ?? null,
    selection: stillThere(state.selection, results, measuredBefore(state)),
    message: null,
  });
}

const measuredBefore = (state: AppState): Results =>
  state.preview ? keeper(state.history.job) : state.results;

/** Takes back what is in hand, else the last step. */
export function goBack(): void {
  const { toolId, toolState, history } = get();
  if (toolById(toolId).busy(toolState)) tell({ type: 'back' });
  else if (history.past.length > 0) {
    setHistory(undo(history));
    note({ undo: true });
  }
}

export function goForward(): void {
  const { history } = get();
  if (history.future.length === 0) return;
  setHistory(redo(history));
  note({ redo: true });
}

export const keepPicture = (id: Id, image: Blob): void =>
  set({ images: new Map(get().images).set(id, image) });

// ---- sheets and camera ---------------------------------------------------------------------------------------

/** Shows a sheet; a sheet seen for the first time is shown whole. */
export function openSheet(sheetId: Id | null): void {
  const sheet = sheetId ? shownJob().sheets[sheetId] : undefined;
  set({
    sheetId: sheet ? sheet.id : null,
    // What is not in view is not to be moved or deleted.
    selection: (sheet?.id ?? null) === get().sheetId ? get().selection : null,
    view: { ...get().view, yUp: sheet ? sheet.picture === null : false },
  });
  if (sheet && !get().cameras[sheet.id]) fitSheet();
}

/** Shows all of the sheet and all that is drawn on it. */
export function fitSheet(): void {
  const { sheetId, view, cameras } = get();
  const job = shownJob();
  const sheet = sheetId ? job.sheets[sheetId] : undefined;
  if (!sheet) return;
  const points = Object.values(job.slabs)
    .filter((s) => s.sheetId === sheet.id)
    .flatMap((s) => outlinePoints(slabRing(job, s)));
  if (sheet.picture) points.push({ x: 0, y: 0 }, { x: sheet.picture.widthPx, y: sheet.picture.heightPx });
  if (points.length === 0) points.push({ x: -1, y: -1 }, { x: 11, y: 8 });
  const camera = fitBox(boxOf(points), view, view.width < 600 ? 18 : 40);
  set({ cameras: { ...cameras, [sheet.id]: camera } });
  fitted = { camera, height: view.height };
}

/** The camera as everything was fitted in last, while nobody has moved it since, and how high the board was then. */
let fitted: { readonly camera: Camera; readonly height: number } | null = null;

export function setCamera(camera: Camera): void {
  const { sheetId, cameras } = get();
  if (sheetId) set({ cameras: { ...cameras, [sheetId]: camera } });
}

export const cameraOf = (state: AppState): Camera | null =>
  (state.sheetId ? state.cameras[state.sheetId] : undefined) ?? null;

/**
 * The board's size changed: what is seen stays where it is. Everything is fitted in the first time, and when a panel
 * below it goes up or down, unless something is being drawn or the view was moved.
 */
export function setViewSize(width: number, height: number): void {
  const { view, cameras, sheetId, toolId, toolState } = get();
  if (view.width === width && view.height === height) return;
  // Nothing is seen of a board that a message leaves no room.
  if (width < 1 || height < 1) return;
  const camera = cameraOf(get());
  set({ view: { ...view, width, height } });
  const grown = fitted && camera === fitted.camera ? height / fitted.height : 1;
  const panelMoved = grown > 1.5 || grown < 0.67;
  if (!camera || !sheetId || !sized || (panelMoved && !toolById(toolId).busy(toolState))) {
    sized = true;
    fitSheet();
    return;
  }
  const held = toSheet(camera, view, { x: 0, y: 0 });
  const now = toSheet(camera, get().view, { x: 0, y: 0 });
  const centre = { x: camera.centre.x + held.x - now.x, y: camera.centre.y + held.y - now.y };
  const moved = { ...camera, centre };
  set({ cameras: { ...cameras, [sheetId]: moved } });
  if (camera === fitted?.camera) fitted = { ...fitted, camera: moved };
}

/** Whether the board has been laid out yet; before that its size is a guess. */
let sized = false;

// ---- tools ---------------------------------------------------------------------------------------------------

/** Takes a tool in hand; a panel that fills a phone's screen makes room for the board it draws on. */
export function takeTool(toolId: string): void {
  const { dock } = get();
  set({
    toolId,
    dock: dock === 'full' && toolId !== 'select' ? 'half' : dock,
    toolState: toolById(toolId).start,
    preview: null,
    results: keeper(currentJob()),
    message: null,
  });
}

export const select = (selection: Selection | null): void => set({ selection, message: null });

/** What the tool in hand may look at; null while there is no sheet. */
export function toolContext(state: AppState = get()): ToolContext | null {
  const camera = cameraOf(state);
  const job = currentJob(state);
  const sheet = state.sheetId ? job.sheets[state.sheetId] : undefined;
  if (!sheet || !camera) return null;
  return {
    job,
    takeoff: state.results.takeoff,
    sheetId: sheet.id,
    frame: groundFrame(job, sheet),
    reach: state.reachPx / camera.zoom,
    selection: state.selection,
    adding: state.shift,
    surface: lastSurface(job),
    newId: randomId,
  };
}

/** A new slab starts as the last one is. */
function lastSurface(job: Job): Surface {
  const slabs = Object.values(job.slabs);
  return slabs[slabs.length - 1]?.surface ?? DEFAULT_SURFACE;
}

/** Tells the tool that the pointer did something; false when the tool leaves it to the board. */
export function pointTool(
  type: 'hover' | 'tap' | 'press' | 'drag' | 'release',
  screen: { readonly x: number; readonly y: number },
  kind: PointerKind,
): boolean {
  if (get().reachPx !== REACH[kind]) set({ reachPx: REACH[kind] });
  const state = get();
  const camera = cameraOf(state);
  const context = toolContext(state);
  if (!camera || !context) return false;
  const raw = toSheet(camera, state.view, screen);
  const tool = toolById(state.toolId);
  const at = snap(raw, {
    job: context.job,
    sheetId: context.sheetId,
    reach: tool.snapsClose ? Math.min(state.reachPx, REACH.mouse) / camera.zoom : context.reach,
    path: tool.path(state.toolState),
    off: state.snapOff,
    findEnd: state.findEnd,
  });
  return tellTool({ type, at, raw });
}

/** Tells the tool something that needs no place. */
export function tell(input: ToolInput): void {
  tellTool(input);
}

function tellTool(input: ToolInput): boolean {
  const state = get();
  const context = toolContext(state);
  if (!context) return false;
  const step = toolById(state.toolId).on(state.toolState, input, context);
  if (step.state !== state.toolState) set({ toolState: step.state });
  return takeStep(step);
}

function takeStep(step: ToolStep<unknown>): boolean {
  if (step.problem) sayProblem(step.problem);
  if (step.preview) showPreview(step.preview);
  else if (get().preview) set({ preview: null, results: keeper(currentJob()) });
  const changed = step.edits ? change(step.edits) : true;
  if (step.select !== undefined && changed) set({ selection: stillThere(step.select, get().results) });
  return step.pass !== true;
}

/** Shows the job as it would be; a change that would be refused leaves the last good picture. */
function showPreview(edits: readonly Edit[]): void {
  let job = currentJob();
  for (const edit of edits) {
    const next = applyEdit(job, edit);
    if (!next.ok) return;
    job = next.value;
  }
  set({ preview: job, results: keeper(job) });
}

/** Types a length into the tool in hand. */
export const enterLength = (id: string, lengthM: Metres): void => tell({ type: 'entry', id, lengthM });

export const toolKeys = (): ReadonlyMap<string, string> => new Map(TOOLS.map((t) => [t.key, t.id]));

/** Deletes what is selected. */
export function deleteSelected(): void {
  const { selection, results } = get();
  const edits = removal(itemsOf(selection), { job: currentJob(), takeoff: results.takeoff });
  if (edits.length > 0) change(edits);
}
