import { type Export, writeExport } from '../exports/index.ts';
import { readImageHeader } from '../imports/image-header.ts';
import { readWeather } from '../imports/weather/index.ts';
import { jobFromBook } from '../job/book.ts';
import type { Place } from '../job/types.ts';
import { download, fileName, jobFromText, jobToBlob } from '../storage/job-files.ts';
import { keepImage, keepJob, openKeptJob } from '../storage/job-store.ts';
import { DEMOS, openDemo } from './demos.ts';
import {
  change,
  currentJob,
  keepPicture,
  newId,
  openSheet,
  say,
  sayProblem,
  showJob,
  store,
  takeTool,
} from './store.ts';

/** Files larger than this are not a job or a picture of a yard. */
const LARGEST_FILE_BYTES = 300_000_000;

/** Takes whatever a person gives: a picture becomes a sheet, a job file is opened. What is open stays if it cannot be read. */
export async function takeFile(file: File): Promise<void> {
  if (file.size > LARGEST_FILE_BYTES) {
    sayProblem({ code: 'file/unreadable', file: file.name, detail: 'it is larger than 300 MB' });
    return;
  }
  const start = new Uint8Array(await file.slice(0, 1).arrayBuffer());
  const looksLikeJob = /\.json$/i.test(file.name) || file.type === 'application/json' || start[0] === 0x7b;
  await (looksLikeJob ? openJobFile(file) : addPicture(file));
}

async function openJobFile(file: File): Promise<void> {
  const kept = await jobFromText(await file.text(), file.name, async () => null);
  if (!kept.ok) {
    sayProblem(kept.problem);
    return;
  }
  showJob(kept.value.job, kept.value.images);
  const done = [
    ...(await Promise.all([...kept.value.images].map(([id, image]) => keepImage(id, image)))),
    await keepJob(kept.value.job, Date.now(), true),
  ];
  const problem = done.find((d) => !d.ok);
  if (problem && !problem.ok) sayProblem(problem.problem);
  else store.setState({ saved: 'yes' });
  const lost = Object.values(kept.value.job.sheets).find(
    (s) => s.picture && !kept.value.images.has(s.picture.imageId),
  );
  if (lost) sayProblem({ code: 'image/missing', sheet: lost.name });
}

/** Puts a picture on the board: under the sheet that lost its own, or as a new sheet. */
async function addPicture(file: File): Promise<void> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const header = readImageHeader(bytes, file.name);
  if (!header.ok) {
    sayProblem(header.problem);
    return;
  }
  const image = new Blob([bytes], { type: header.value.type });
  const size = await decodedSize(image);
  if (!size) {
    sayProblem({ code: 'image/broken', file: file.name });
    return;
  }
  const imageId = newId('i');
  keepPicture(imageId, image);
  const kept = await keepImage(imageId, image);
  if (!kept.ok) sayProblem(kept.problem);
  const picture = { imageId, ...size };
  const waiting = sheetWithoutPicture(size);
  if (waiting) {
    change([{ type: 'set-picture', args: { sheetId: waiting, picture } }]);
    openSheet(waiting);
    return;
  }
  const id = newId('sheet');
  const name = file.name.replace(/\.[a-z]+$/i, '') || 'Picture';
  if (!change([{ type: 'add-sheet', args: { id, name, picture, fit: null } }])) return;
  openSheet(id);
  store.setState({ station: 'Measure' });
  takeTool('scale');
}

/** A sheet whose picture is missing and was of the same size. */
function sheetWithoutPicture(size: { widthPx: number; heightPx: number }): string | null {
  const { images } = store.getState();
  const found = Object.values(currentJob().sheets).find(
    ({ picture }) =>
      picture &&
      !images.has(picture.imageId) &&
      picture.widthPx === size.widthPx &&
      picture.heightPx === size.heightPx,
  );
  return found?.id ?? null;
}

/** The picture's size as it is shown, after a camera's note to turn it; null when it does not decode. */
async function decodedSize(image: Blob): Promise<{ widthPx: number; heightPx: number } | null> {
  try {
    const bitmap = await createImageBitmap(image);
    const size = { widthPx: bitmap.width, heightPx: bitmap.height };
    bitmap.close();
    return size;
  } catch {
    return null;
  }
}

/** A sheet to draw on by typed lengths. */
export function addGrid(): void {
  const id = newId('sheet');
  if (!change([{ type: 'add-sheet', args: { id, name: 'Grid', picture: null, fit: { kind: 'metric' } } }]))
    return;
  openSheet(id);
  takeTool('slab');
}

/** Asks for a file. */
function chooseFile(accept: string, take: (file: File) => Promise<void> = takeFile): void {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = accept;
  input.onchange = () => {
    const file = input.files?.[0];
    if (file) void take(file);
  };
  input.click();
}

export const choosePicture = (): void => chooseFile('image/png,image/jpeg,image/webp');
export const chooseJob = (): void => chooseFile('.json,application/json');

/** Asks for a weather file; the place is for files that do not say. */
export const chooseWeather = (place: Place | null): void =>
  chooseFile('.csv,.txt,.epw,.json,text/csv,application/json', async (file) => {
    if (file.size > LARGEST_WEATHER_BYTES) {
      sayProblem({ code: 'file/unreadable', file: file.name, detail: 'it is larger than 20 MB' });
      return;
    }
    takeWeather(await file.text(), file.name, place);
  });

const LARGEST_WEATHER_BYTES = 20_000_000;

/** Reads weather and plans by it; what cannot be read is said, and the old weather stays. */
export function takeWeather(text: string, name: string, place: Place | null): void {
  if (text.length > LARGEST_WEATHER_BYTES) {
    sayProblem({ code: 'file/unreadable', file: name, detail: 'it is larger than 20 MB' });
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
  download(await jobToBlob(job, store.getState().images), fileName(job.name, 'json'));
  say('The job was saved to a file, pictures inside.');
}

export async function exportFile(kind: Export): Promise<void> {
  const { results } = store.getState();
  const bytes = await writeExport(kind, results);
  if (!bytes.ok) {
    sayProblem(bytes.problem);
    return;
  }
  download(
    new Blob([bytes.value as Uint8Array<ArrayBuffer>], { type: kind.type }),
    fileName(results.job.name, kind.ending),
  );
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
  showJob({ ...kept.value.job, id: newId('job') }, kept.value.images);
}

/** Goes back to a job that is kept in this browser. */
export async function showKept(id: string): Promise<void> {
  const kept = await openKeptJob(id);
  if (!kept.ok) sayProblem(kept.problem);
  else if (!kept.value) sayProblem({ code: 'entity/missing', what: 'kept job', id });
  else {
    showJob(kept.value.job, kept.value.images);
    store.setState({ saved: 'yes' });
  }
}

/** An empty job with the prices, values and trials of the ones before. */
export function newJob(): void {
  showJob(jobFromBook(newId('job'), 'New job', store.getState().book), new Map());
  store.setState({ station: 'Measure' });
}
