import { readWeather } from '../imports/weather/index.ts';
import { jobFromBook } from '../job/book.ts';
import { unusedName } from '../job/names.ts';
import type { Id, Place } from '../job/types.ts';
import { download, fileName, jobFromText, jobToBlob } from '../storage/job-files.ts';
import { openDay, openKept } from '../storage/job-log.ts';
import { isKept, keptText, listKeptJobs } from '../storage/job-store.ts';
import { tr } from '../words/tr.ts';
import { DEMOS, openDemo } from './demos.ts';
import { handOver } from './hand-over.ts';
import { keepOpened, openHistory } from './keeping.ts';
import { openToMeasure } from './open-file.ts';
import { change, currentJob, newId, openSheet, say, sayProblem, showJob, store, takeTool } from './store.ts';

/** Files larger than this are not a job or a picture of a yard. */
const LARGEST_FILE_BYTES = 300_000_000;

/** Takes whatever a person gives: a job file is opened, all else becomes a sheet. What is open stays if it cannot be read. */
export async function takeFile(file: File): Promise<void> {
  if (file.size > LARGEST_FILE_BYTES) {
    sayProblem({ code: 'file/unreadable', file: file.name, detail: tr`it is larger than 300 MB` });
    return;
  }
  const start = await file.slice(0, 400).text();
  await (looksLikeJob(start)
    ? openJobFile(file)
    : openToMeasure(new Uint8Array(await file.arrayBuffer()), file.name));
}

/** JSON that is not of places is taken for a job, so that the sentence about it is the right one. */
const looksLikeJob = (start: string): boolean =>
  /^\uFEFF?\s*\{/.test(start) &&
  !/"type"\s*:\s*"(Feature|FeatureCollection|Geometry|Polygon|Multi|Line|Point)/.test(start);

async function openJobFile(file: File): Promise<void> {
  const kept = await jobFromText(await file.text(), file.name, async () => null);
  if (!kept.ok) {
    // JSON with no job in it may still be of places.
    const places = kept.problem.code === 'file/not-a-job' && (await file.text()).includes('"coordinates"');
    if (places) await openToMeasure(new Uint8Array(await file.arrayBuffer()), file.name);
    else sayProblem(kept.problem);
    return;
  }
  // A job of this browser is not written over by a file: what is in the file is opened beside it.
  const { job } = kept.value;
  const twin = await isKept(job.id);
  showJob(twin ? { ...job, id: newId('job') } : job, kept.value.images);
  await keepOpened();
  say(
    twin
      ? tr`${file.name} was opened beside the job of the same origin that is kept here.`
      : tr`${file.name} was opened.`,
  );
  const lost = Object.values(kept.value.job.sheets).find(
    (s) => s.picture && !kept.value.images.has(s.picture.imageId),
  );
  if (lost) sayProblem({ code: 'image/missing', sheet: lost.name });
}

/** A sheet to draw on by typed lengths. */
export function addGrid(): void {
  const id = newId('sheet');
  if (!change([{ type: 'add-sheet', args: { id, name: tr`Grid`, picture: null, fit: { kind: 'metric' } } }]))
    return;
  openSheet(id);
  takeTool('slab');
  // On a phone the board has the screen now.
  store.setState({ dock: 'low' });
}

/** Asks for a file. */
export function chooseFile(accept: string, take: (file: File) => Promise<unknown> = takeFile): void {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = accept;
  input.onchange = () => {
    const file = input.files?.[0];
    if (file) void take(file);
  };
  input.click();
}

export const choosePicture = (): void =>
  chooseFile(
    'image/png,image/jpeg,image/webp,image/heic,image/avif,.heic,.heif,.pdf,.dxf,.svg,.svgz,.geojson,.json,.kml,.gpx,application/pdf,image/svg+xml',
  );
export const chooseJob = (): void => chooseFile('.json,application/json');

/** Asks for a weather file; the place is for files that do not say. */
export const chooseWeather = (place: Place | null): void =>
  chooseFile('.csv,.txt,.epw,.json,text/csv,application/json', async (file) => {
    if (file.size > LARGEST_WEATHER_BYTES) {
      sayProblem({ code: 'file/unreadable', file: file.name, detail: tr`it is larger than 20 MB` });
      return;
    }
    takeWeather(await file.text(), file.name, place);
  });

const LARGEST_WEATHER_BYTES = 20_000_000;

/** Reads weather and plans by it; what cannot be read is said, and the old weather stays. */
export function takeWeather(text: string, name: string, place: Place | null): void {
  if (text.length > LARGEST_WEATHER_BYTES) {
    sayProblem({ code: 'file/unreadable', file: name, detail: tr`it is larger than 20 MB` });
    return;
  }
  const own = currentJob().weather;
  const known =
    place ?? (own ? { latitude: own.latitude, longitude: own.longitude, zoneH: own.zoneH } : null);
  const read = readWeather(text, name, known);
  if (!read.ok) sayProblem(read.problem);
  else change([{ type: 'set-weather', args: { weather: read.value } }]);
}

export async function saveJobFile(): Promise<void> {
  const job = currentJob();
  const blob = await jobToBlob(job, store.getState().images);
  handOver(blob, fileName(job.name, 'json'), tr`The job was saved to a file, pictures inside.`);
}

export async function showDemo(id: string): Promise<void> {
  const demo = DEMOS.find((d) => d.id === id);
  const kept = demo && (await openDemo(demo));
  if (!kept) return;
  if (!kept.ok) {
    sayProblem(kept.problem);
    return;
  }
  // A demo opened again does not write over what was changed in it before.
  const jobId = newId('job');
  shown = { jobId, demoId: demo.id };
  showJob({ ...kept.value.job, id: jobId }, kept.value.images);
}

let shown: { readonly jobId: Id; readonly demoId: string } | null = null;

/** The demo that is looked at as it came; null where it is another job, or was changed. */
export function demoShown(): string | null {
  const { saved, history } = store.getState();
  return shown && saved === 'never' && history.job.id === shown.jobId ? shown.demoId : null;
}

/** Goes back to a job that is kept in this browser. */
export async function showKept(id: string): Promise<void> {
  const kept = await openKept(id);
  if (!kept.ok) sayProblem(kept.problem);
  else if (!kept.value) sayProblem({ code: 'entity/missing', what: tr`kept job`, id });
  else openHistory(kept.value.history, kept.value.seq, kept.value.images);
}

/** Opens a job as it was before the first change of a day, beside what it is now. */
export async function showDay(id: string, day: string): Promise<void> {
  const version = await openDay(id, day);
  if (!version.ok) sayProblem(version.problem);
  else if (!version.value) sayProblem({ code: 'entity/missing', what: tr`earlier version`, id: day });
  else {
    const job = { ...version.value, id: newId('job'), name: tr`${version.value.name} (before ${day})` };
    showJob(job, store.getState().images);
    await keepOpened();
  }
}

/** A kept job's text as a file, also where it cannot be read. */
export async function saveKeptText(id: string, name: string): Promise<void> {
  const text = await keptText(id);
  if (text !== null) download(new Blob([text], { type: 'application/json' }), fileName(name || id, 'json'));
}

/** An empty job with the prices, values and trials of the ones before. */
export async function newJob(): Promise<void> {
  const name = unusedName(
    tr`New job`,
    (await listKeptJobs()).map((kept) => kept.name),
  );
  showJob(jobFromBook(newId('job'), name, store.getState().book), new Map());
  // On a phone the board, which asks what there is to begin with, has the screen now.
  store.setState({ station: 'Measure', dock: 'low' });
}
