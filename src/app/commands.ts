import { toolById } from '../board/tools/index.ts';
import { EXPORTS } from '../exports/index.ts';
import { byName } from '../job/order.ts';
import type { Id } from '../job/types.ts';
import type { Command } from '../panels/command-dialog.tsx';
import { DEMOS } from './demos.ts';
import { addGrid, chooseJob, choosePicture, newJob, saveJobFile, showDemo } from './files.ts';
import { offeredTools } from './offered-tools.ts';
import { selectAll, showPlace } from './places.ts';
import {
  type AppState,
  change,
  currentJob,
  deleteSelected,
  fitSheet,
  goBack,
  goForward,
  openSheet,
  STATIONS,
  store,
  takeTool,
  tell,
  toolContext,
} from './store.ts';
import { THEME_WORDS, THEMES, wearTheme } from './theme.ts';
import { exportFile } from './writing.ts';

/** All that can be done at this moment, the nearest at hand first. */
export const commandsNow = (state: AppState = store.getState()): Command[] => [
  ...inHand(state),
  ...tools(state),
  ...views(state),
  ...stations(),
  ...drawn(),
  ...files(),
  ...settings(),
];

const command = (group: string, words: string, run: () => void, keys?: string): Command => ({
  id: `${group} ${words}`,
  group,
  words,
  run,
  ...(keys ? { keys } : {}),
});

function inHand(state: AppState): Command[] {
  const tool = toolById(state.toolId);
  const context = toolContext(state);
  const list: Command[] = [];
  if (context && tool.canFinish(state.toolState))
    list.push(command('in hand', 'Finish', () => tell({ type: 'finish' }), 'Enter'));
  if (tool.busy(state.toolState))
    list.push(command('in hand', 'Cancel', () => tell({ type: 'cancel' }), 'Esc'));
  for (const option of context ? tool.options(state.toolState, context) : [])
    list.push(command('in hand', option.label, () => tell({ type: 'option', id: option.id }), option.key));
  if (state.sheetId !== null) list.push(command('selected', 'Select all on this sheet', selectAll, 'Ctrl A'));
  if (state.selection) list.push(command('selected', 'Delete what is selected', deleteSelected, 'Delete'));
  return list;
}

const tools = (state: AppState): Command[] =>
  offeredTools(state).map((tool) =>
    command('tool', tool.label, () => takeTool(tool.id), tool.key.toUpperCase()),
  );

const views = ({ history, snapOff, legendOpen }: AppState): Command[] => [
  ...(history.past.length > 0
    ? [command('back', `Undo: ${history.past[history.past.length - 1]!.label}`, goBack, 'Ctrl Z')]
    : []),
  ...(history.future.length > 0
    ? [command('back', `Redo: ${history.future[0]!.label}`, goForward, 'Ctrl Y')]
    : []),
  command('view', 'Fit: show everything', fitSheet, '0'),
  command(
    'view',
    snapOff ? 'Snap to corners and sides' : 'Stop snapping',
    () => store.setState({ snapOff: !snapOff }),
    'Shift',
  ),
  command('view', legendOpen ? 'Close the legend' : 'Legend', () =>
    store.setState({ legendOpen: !legendOpen }),
  ),
  ...THEMES.map((theme) => command('view', `Look: ${THEME_WORDS[theme]}`, () => wear(theme))),
];

/** Puts a look on; the page renders anew. */
export function wear(theme: (typeof THEMES)[number]): void {
  wearTheme(theme);
  store.setState({ theme });
}

const stations = (): Command[] =>
  STATIONS.map((station, i) =>
    command(
      'station',
      station,
      () =>
        store.setState({ station, dock: store.getState().dock === 'low' ? 'half' : store.getState().dock }),
      `Alt ${i + 1}`,
    ),
  );

/** What is drawn, to be selected by its name. */
function drawn(): Command[] {
  const job = currentJob();
  const show = (id: Id) => () => {
    store.setState({ station: 'Zones' });
    showPlace(id);
  };
  return [
    ...Object.values(job.sheets)
      .sort(byName)
      .map((s) => command('sheet', s.name, () => openSheet(s.id))),
    ...store.getState().results.takeoff.zones.map((z) => command('zone', z.name, show(z.id))),
    ...Object.values(job.voids)
      .sort(byName)
      .map((v) => command('taken out', v.name, show(v.id))),
  ].map((c, i) => ({ ...c, id: `${c.id} ${i}` }));
}

const files = (): Command[] => [
  command('file', 'Open a photo, plan or drawing', choosePicture),
  command('file', 'Blank grid', addGrid),
  command('file', 'Open a job file', chooseJob),
  command('file', 'Save the job to a file', () => void saveJobFile()),
  command('file', 'New job', newJob),
  ...EXPORTS.map((kind) => command('write', `${kind.label} (${kind.ending})`, () => void exportFile(kind))),
  ...DEMOS.map((demo) => command('demo job', demo.label, () => void showDemo(demo.id))),
];

const settings = (): Command[] => [
  command('units', 'Metres and litres', () => units('metric')),
  command('units', 'Feet and US gallons', () => units('us')),
];

const units = (system: 'metric' | 'us'): void => {
  change([{ type: 'change-settings', args: { units: system } }]);
};
