import { toolById } from '../board/tools/index.ts';
import { EXPORTS } from '../exports/index.ts';
import { byName } from '../job/order.ts';
import type { Id } from '../job/types.ts';
import type { Command } from '../panels/command-dialog.tsx';
import { LANGUAGE_NAMES, LANGUAGES } from '../words/language.ts';
import { tr } from '../words/tr.ts';
import { DEMOS } from './demos.ts';
import { speak, wear } from './device.ts';
import { addGrid, chooseJob, choosePicture, newJob, saveJobFile, showDemo } from './files.ts';
import { offeredTools } from './offered-tools.ts';
import { enterBoard, enterStation, selectAll, showPlace } from './places.ts';
import { STATION_WORDS, STATIONS } from './stations.ts';
import {
  type AppState,
  change,
  currentJob,
  deleteSelected,
  fitSheet,
  goBack,
  goForward,
  openSheet,
  store,
  takeTool,
  tell,
  toolContext,
} from './store.ts';
import { THEME_WORDS, THEMES } from './theme.ts';
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
    list.push(command(tr`in hand`, tr`Finish`, () => tell({ type: 'finish' }), 'Enter'));
  if (tool.busy(state.toolState))
    list.push(command(tr`in hand`, tr`Cancel`, () => tell({ type: 'cancel' }), 'Esc'));
  for (const option of context ? tool.options(state.toolState, context) : [])
    list.push(command(tr`in hand`, option.label, () => tell({ type: 'option', id: option.id }), option.key));
  if (state.sheetId !== null)
    list.push(command(tr`selected`, tr`Select all on this sheet`, selectAll, 'Ctrl A'));
  if (state.selection)
    list.push(command(tr`selected`, tr`Delete what is selected`, deleteSelected, 'Delete'));
  return list;
}

const tools = (state: AppState): Command[] =>
  offeredTools(state).map((tool) =>
    command(
      tr`tool`,
      tool.label,
      () => {
        takeTool(tool.id);
        enterBoard();
      },
      tool.key.toUpperCase(),
    ),
  );

const views = ({ history, snapOff, legendOpen }: AppState): Command[] => [
  ...(history.past.length > 0
    ? [command(tr`back`, tr`Undo: ${history.past[history.past.length - 1]!.label}`, goBack, 'Ctrl Z')]
    : []),
  ...(history.future.length > 0
    ? [command(tr`back`, tr`Redo: ${history.future[0]!.label}`, goForward, 'Ctrl Y')]
    : []),
  command(tr`view`, tr`Fit: show everything`, fitSheet, '0'),
  command(
    tr`view`,
    snapOff ? tr`Snap to corners and sides` : tr`Stop snapping`,
    () => store.setState({ snapOff: !snapOff }),
    'Shift',
  ),
  command(tr`view`, legendOpen ? tr`Close the legend` : tr`Legend`, () =>
    store.setState({ legendOpen: !legendOpen }),
  ),
  ...THEMES.map((theme) => command(tr`view`, tr`Look: ${THEME_WORDS[theme]}`, () => wear(theme))),
];

const stations = (): Command[] => [
  ...STATIONS.map((station, i) =>
    command(tr`station`, STATION_WORDS[station], () => enterStation(station), `Alt ${i + 1}`),
  ),
  command(tr`view`, tr`The board`, enterBoard, 'Alt 0'),
];

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
      .map((s) => command(tr`sheet`, s.name, () => openSheet(s.id))),
    ...store.getState().results.takeoff.zones.map((z) => command(tr`zone`, z.name, show(z.id))),
    ...Object.values(job.voids)
      .sort(byName)
      .map((v) => command(tr`taken out`, v.name, show(v.id))),
  ].map((c, i) => ({ ...c, id: `${c.id} ${i}` }));
}

const files = (): Command[] => [
  command(tr`file`, tr`Open a photo, plan or drawing`, choosePicture),
  command(tr`file`, tr`Blank grid`, addGrid),
  command(tr`file`, tr`Open a job file`, chooseJob),
  command(tr`file`, tr`Save the job to a file`, () => void saveJobFile()),
  command(tr`file`, tr`New job`, () => void newJob()),
  ...EXPORTS.map((kind) => command(tr`write`, `${kind.label} (${kind.ending})`, () => void exportFile(kind))),
  ...DEMOS.map((demo) => command(tr`demo job`, demo.label, () => void showDemo(demo.id))),
];

const settings = (): Command[] => [
  command(tr`units`, tr`Metres and litres`, () => units('metric')),
  command(tr`units`, tr`Feet and US gallons`, () => units('us')),
  ...LANGUAGES.map((l) => command(tr`language`, LANGUAGE_NAMES[l], () => void speak(l))),
];

const units = (system: 'metric' | 'us'): void => {
  change([{ type: 'change-settings', args: { units: system } }]);
};
