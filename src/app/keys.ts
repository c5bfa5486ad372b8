import { toolById } from '../board/tools/index.ts';
import { onPointerKey } from './key-pointer.ts';
import { enterBoard, enterStation, selectAll } from './places.ts';
import { STATIONS } from './stations.ts';
import {
  deleteSelected,
  fitSheet,
  goBack,
  goForward,
  store,
  takeTool,
  tell,
  toolContext,
  toolKeys,
} from './store.ts';

const inField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.closest('input, select, textarea, dialog') !== null;

/** Keys of the board; typing in a field is left alone. */
export function onKey(event: KeyboardEvent): void {
  const command = event.ctrlKey || event.metaKey;
  if (command && event.key.toLowerCase() === 'z' && !inField(event.target)) {
    event.preventDefault();
    if (event.shiftKey) goForward();
    else goBack();
    return;
  }
  if (command && event.key.toLowerCase() === 'y' && !inField(event.target)) {
    event.preventDefault();
    goForward();
    return;
  }
  if (command && event.key.toLowerCase() === 'a' && !inField(event.target)) {
    event.preventDefault();
    takeTool('select');
    selectAll();
    return;
  }
  if (command && event.key.toLowerCase() === 'k') {
    event.preventDefault();
    store.setState({ commanding: !store.getState().commanding });
    return;
  }
  const station = event.altKey && !command ? STATIONS[Number(event.key) - 1] : undefined;
  if (station) {
    event.preventDefault();
    enterStation(station);
    return;
  }
  if (event.altKey && !command && event.key === '0') {
    event.preventDefault();
    enterBoard();
    return;
  }
  if (event.key === 'Shift') onShift(inField(event.target));
  if (command || event.altKey || inField(event.target)) return;
  const { toolId, toolState } = store.getState();
  const tool = toolById(toolId);
  const context = toolContext();
  if (event.key === 'Escape') {
    dropOut(tool.busy(toolState));
    return;
  }
  if (event.key === 'Enter' && tool.canFinish(toolState)) {
    event.preventDefault();
    tell({ type: 'finish' });
    return;
  }
  if (onPointerKey(event)) {
    event.preventDefault();
    return;
  }
  if (event.key === 'Delete' || event.key === 'Backspace') {
    if (tool.busy(toolState)) goBack();
    else deleteSelected();
    return;
  }
  const option = (context ? tool.options(toolState, context) : []).find((o) => o.key === event.key);
  if (option) {
    tell({ type: 'option', id: option.id });
    return;
  }
  if (event.key === '0') {
    fitSheet();
    return;
  }
  // A digit begins a length: the first entry takes it.
  if (/^[1-9.]$/.test(event.key)) {
    const field = document.querySelector<HTMLInputElement>('.entries input:not([data-size])');
    if (field) field.focus();
    return;
  }
  const toolFor = toolKeys().get(event.key);
  if (!toolFor) return;
  takeTool(toolFor);
  enterBoard();
}

export function onKeyUp(event: KeyboardEvent): void {
  if (event.key === 'Shift') onKeysGone();
}

/** Whether it is Shift that keeps from snapping. */
let snapsAgain = false;

/** Shift is down: on the board it keeps from snapping too. */
function onShift(typing: boolean): void {
  const { snapOff, shift } = store.getState();
  if (shift) return;
  snapsAgain = !typing && !snapOff;
  store.setState({ shift: true, ...(snapsAgain ? { snapOff: true } : {}) });
}

/** Shift is up; it is not told where, when the window was left with it held down. */
export function onKeysGone(): void {
  if (!store.getState().shift) return;
  store.setState({ shift: false, ...(snapsAgain ? { snapOff: false } : {}) });
}

/** First what is in hand, then the tool, then the selection. */
function dropOut(busy: boolean): void {
  const { toolId } = store.getState();
  if (busy) tell({ type: 'cancel' });
  else if (toolId !== 'select') takeTool('select');
  else store.setState({ selection: null, legendOpen: false, message: null });
}
