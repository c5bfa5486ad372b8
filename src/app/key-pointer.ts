import type { Point } from '../../geometry/index.ts';
import { pan, toScreen, zoomAt } from '../board/camera.ts';
import { toolById } from '../board/tools/index.ts';
import { itemsOf } from '../board/tools/several.ts';
import type { SheetPoint } from '../units/types.ts';
import { cameraOf, change, pointTool, setCamera, store, toolContext } from './store.ts';

/** How far an arrow key moves the pointer of the keyboard, and the view, in screen pixels. */
const STEP_PX = 8;
const PAN_PX = 60;
/** How far an arrow key moves what is selected, in metres. */
const NUDGE_M = 0.01;

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/** Where the pointer of the keyboard is on the board, for which tool, and how much that had drawn when it got there. */
let pointer: { readonly toolId: string; readonly at: Point; readonly drawn: number } | null = null;

/**
 * Keys that stand for the pointer: arrows move what is selected, or draw with the tool in hand, or pan; Space taps;
 * plus and minus zoom.
 * @returns whether the key was one of them
 */
export function onPointerKey(event: KeyboardEvent): boolean {
  const camera = cameraOf(store.getState());
  const { toolId, view, selection } = store.getState();
  if (!camera || !onBoard(event.target)) return false;
  if (event.key === '+' || event.key === '=' || event.key === '-') {
    const centre = { x: view.width / 2, y: view.height / 2 };
    setCamera(zoomAt(camera, view, centre, event.key === '-' ? 1 / 1.25 : 1.25));
    return true;
  }
  if (event.key === ' ' && toolId !== 'select') {
    if (!event.repeat) pointTool('tap', placed(toolId), 'mouse');
    return true;
  }
  const arrow = ARROWS[event.key];
  if (!arrow) return false;
  if (toolId !== 'select') {
    const at = placed(toolId);
    const next = { x: at.x + arrow.x * STEP_PX, y: at.y + arrow.y * STEP_PX };
    pointer = {
      toolId,
      drawn: path().length,
      at: { x: within(next.x, view.width), y: within(next.y, view.height) },
    };
    pointTool('hover', pointer.at, 'mouse');
  } else if (selection) nudge(arrow);
  else setCamera(pan(camera, view, -arrow.x * PAN_PX, -arrow.y * PAN_PX));
  return true;
}

function nudge(arrow: Point): void {
  const { toolId, selection } = store.getState();
  const context = toolContext();
  const edits = context && toolById(toolId).nudge?.(arrow.x * NUDGE_M, -arrow.y * NUDGE_M, context);
  if (edits && edits.length > 0)
    change(
      edits,
      `nudge ${itemsOf(selection)
        .map((i) => i.id)
        .join(' ')}`,
    );
}

/** What the tool in hand has drawn. */
function path(): readonly SheetPoint[] {
  const { toolId, toolState } = store.getState();
  return toolById(toolId).path(toolState);
}

/** The pointer of the keyboard: at what was drawn last, else where it was; with a new tool in the middle of the board. */
function placed(toolId: string): Point {
  const { view } = store.getState();
  const camera = cameraOf(store.getState());
  const drawn = path();
  const last = drawn[drawn.length - 1];
  if (camera && last && !(pointer?.toolId === toolId && pointer.drawn === drawn.length))
    return toScreen(camera, view, last);
  return pointer?.toolId === toolId ? pointer.at : { x: view.width / 2, y: view.height / 2 };
}

const within = (value: number, size: number): number => Math.min(Math.max(value, 0), size);

/** The page itself or the board; arrows in lists and tables are left alone. */
const onBoard = (target: EventTarget | null): boolean =>
  target === document.body || (target instanceof HTMLElement && target.closest('.board') !== null);
