import { type DragEvent, useEffect, useMemo } from 'react';
import { REACH } from '../board/gestures.ts';
import { TOOLS, toolById } from '../board/tools/index.ts';
import { swatch } from '../board/view/swatch.ts';
import { CommandDialog } from '../panels/command-dialog.tsx';
import { LengthField } from '../panels/fields.tsx';
import { Legend } from '../panels/legend.tsx';
import { WorkingDialog } from '../panels/working-dialog.tsx';
import { tr } from '../words/tr.ts';
import { BoardPane } from './board-pane.tsx';
import { commandsNow } from './commands.ts';
import { Dock } from './dock.tsx';
import { takeFile } from './files.ts';
import { onKey, onKeysGone, onKeyUp } from './keys.ts';
import { Mishap } from './mishap.tsx';
import { offeredTools } from './offered-tools.ts';
import { stopReading } from './reading.ts';
import {
  change,
  deleteSelected,
  enterLength,
  fitSheet,
  goBack,
  goForward,
  store,
  takeTool,
  tell,
  toolContext,
  useApp,
} from './store.ts';

export function App() {
  useEffect(() => {
    addEventListener('keydown', onKey);
    addEventListener('keyup', onKeyUp);
    addEventListener('blur', onKeysGone);
    addEventListener('paste', onPaste);
    return () => {
      removeEventListener('keydown', onKey);
      removeEventListener('keyup', onKeyUp);
      removeEventListener('blur', onKeysGone);
      removeEventListener('paste', onPaste);
    };
  }, []);
  const working = useApp((s) => s.working);
  const legendOpen = useApp((s) => s.legendOpen);
  const commanding = useApp((s) => s.commanding);
  const commands = useMemo(() => (commanding ? commandsNow() : null), [commanding]);
  const dock = useApp((s) => s.dock);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: files may be dropped anywhere; there are buttons for it too
    <div className={`desk dock-${dock}`} onDragOver={(event) => event.preventDefault()} onDrop={onDrop}>
      <Tools />
      <main>
        <Mishap part={tr`The board`}>
          <BoardPane />
        </Mishap>
        <HintBar />
        {legendOpen && <Legend swatch={swatch} onClose={() => store.setState({ legendOpen: false })} />}
      </main>
      <Mishap part={tr`This station`}>
        <Dock />
      </Mishap>
      <CommandDialog commands={commands} onClose={() => store.setState({ commanding: false })} />
      <WorkingDialog
        of={working}
        onClose={() => store.setState({ working: null })}
        onChoose={(key, value) => {
          store.setState({ working: null });
          change([{ type: 'set-value', args: { key, value } }]);
        }}
      />
    </div>
  );
}

function onDrop(event: DragEvent): void {
  event.preventDefault();
  const file = event.dataTransfer.files[0];
  if (file) void takeFile(file);
}

function onPaste(event: ClipboardEvent): void {
  const file = [...(event.clipboardData?.files ?? [])].find((f) => f.type.startsWith('image/'));
  if (file) void takeFile(file);
}

/** The tools, each with its word and key. */
function Tools() {
  const state = useApp((s) => s);
  const offered = offeredTools(state);
  return (
    <nav className="tools" aria-label={tr`Tools`}>
      {(offered.length > 0 ? offered : TOOLS).map((tool) => (
        <button
          key={tool.id}
          type="button"
          aria-pressed={tool.id === state.toolId}
          disabled={offered.length === 0}
          title={`${tool.label} (${tool.key.toUpperCase()})`}
          onClick={() => takeTool(tool.id)}
        >
          {tool.label}
        </button>
      ))}
    </nav>
  );
}

/** The next key is for the board again; on a phone its keyboard goes away. A tool that asks for more is left in its field. */
function toBoard(): void {
  const state = store.getState();
  const context = toolContext(state);
  const asks = context ? toolById(state.toolId).entries(state.toolState, context).length : 0;
  if (asks <= 1) document.querySelector<HTMLElement>('.board')?.focus({ preventScroll: true });
  // What it asks for next, once that is there.
  else
    requestAnimationFrame(() =>
      [...document.querySelectorAll<HTMLInputElement>('.entries input')].find((i) => i.value === '')?.focus(),
    );
}

/** What to do next, lengths to type, and the way back. */
function HintBar() {
  const state = useApp((s) => s);
  const { toolId, toolState, history, message, snapOff } = state;
  const tool = toolById(toolId);
  const context = toolContext(state);
  const units = history.job.settings.units;
  const undoLabel = history.past[history.past.length - 1]?.label ?? '';
  const touch = state.reachPx === REACH.touch;
  return (
    <div className="hint-bar">
      {state.reading !== null && (
        <p className="message news" role="status">
          {tr`Reading ${state.reading} …`}
          <button type="button" className="link" onClick={stopReading}>{tr`Stop`}</button>
        </p>
      )}
      {message && (
        <p className={`message ${message.kind}`} role={message.kind === 'problem' ? 'alert' : 'status'}>
          {message.text}
          {message.action && (
            <button type="button" className="link" onClick={message.action.run}>
              {message.action.words}
            </button>
          )}
          <button
            type="button"
            className="link"
            onClick={() => store.setState({ message: null })}
          >{tr`Close`}</button>
        </p>
      )}
      {context && (
        <div className="hint">
          <p aria-live="polite">{tool.hint(toolState, context)}</p>
          <div className="entries">
            {tool.entries(toolState, context).map((entry) => (
              <LengthField
                key={entry.id}
                label={entry.label}
                valueM={entry.valueM}
                units={units}
                autoFocus={entry.id === 'known'}
                placeholder={entry.id === 'known' ? (units === 'us' ? '16 ft 4 in' : '5.00') : ''}
                onEnter={(lengthM, left) => {
                  enterLength(entry.id, lengthM);
                  if (!left) toBoard();
                }}
              />
            ))}
            {tool.canFinish(toolState) && (
              <button
                type="button"
                className="main"
                onClick={() => tell({ type: 'finish' })}
              >{tr`Finish`}</button>
            )}
            {toolId === 'select' && state.selection && state.selection.kind !== 'zone' && (
              <button type="button" onClick={deleteSelected}>{tr`Delete`}</button>
            )}
            {tool.busy(toolState) && (
              <button type="button" onClick={() => tell({ type: 'cancel' })}>{tr`Cancel`}</button>
            )}
            {tool.options(toolState, context).map((option) => (
              <button
                key={option.id}
                type="button"
                aria-pressed={option.on}
                onClick={() => tell({ type: 'option', id: option.id })}
              >
                {option.label}
              </button>
            ))}
          </div>
        </div>
      )}
      <div className="ways">
        <button
          type="button"
          onClick={goBack}
          disabled={history.past.length === 0 && !tool.busy(toolState)}
          title={undoLabel ? tr`Undo: ${undoLabel}` : tr`Undo`}
        >{tr`Undo`}</button>
        <button type="button" onClick={goForward} disabled={history.future.length === 0}>{tr`Redo`}</button>
        <button type="button" onClick={fitSheet} title={tr`Show everything (0)`}>{tr`Fit`}</button>
        <button
          type="button"
          aria-pressed={!snapOff}
          onClick={() => store.setState({ snapOff: !snapOff })}
          title={touch ? tr`Snapping` : tr`Snapping; hold Shift to suspend it`}
        >{tr`Snap`}</button>
        <button
          type="button"
          aria-pressed={state.legendOpen}
          onClick={() => store.setState({ legendOpen: !state.legendOpen })}
        >{tr`Legend`}</button>
        <button
          type="button"
          title={tr`Everything that can be done, by search (Ctrl K)`}
          onClick={() => store.setState({ commanding: true })}
        >{tr`Commands`}</button>
      </div>
    </div>
  );
}
