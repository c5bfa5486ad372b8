import { EXPORTS } from '../exports/index.ts';
import {
  type Book,
  FIRST_NUMBER,
  joinedBooks,
  looksLikeBook,
  type Numbering,
  offerNumber,
  readBook,
  writeBookFile,
} from '../job/book.ts';
import type { Edit } from '../job/edits/index.ts';
import { LARGEST_LOGO_BASE64 } from '../job/paper-schema.ts';
import type { WorkRecord } from '../job/paper-types.ts';
import { CustomerSection, LetterheadSection } from '../panels/letterhead-section.tsx';
import { FilesSection, PapersSection } from '../panels/papers-panel.tsx';
import { RecordsSection } from '../panels/records-section.tsx';
import { download, toBase64 } from '../storage/job-files.ts';
import { changeBook } from '../storage/job-store.ts';
import { tr } from '../words/tr.ts';
import { chooseFile, saveJobFile } from './files.ts';
import { shrunk } from './photos.ts';
import { change, currentJob, keepPicture, newId, say, sayProblem, store, useApp } from './store.ts';
import { exportFile, stopWriting, today } from './writing.ts';

/** What leaves the tool: who it is from and for, what was done, and the files. */
export function PapersStation() {
  const results = useApp((s) => s.settled);
  const writing = useApp((s) => s.writing);
  const numbering = useApp((s) => s.book.numbering) ?? FIRST_NUMBER;
  const empty = results.takeoff.zones.length === 0;
  const onChange = (edits: readonly Edit[], merge?: string): boolean => change(edits, merge ?? null);
  const { job } = results;
  const state = { empty, writing, onStop: stopWriting };
  return (
    <>
      <PapersSection {...state} onWrite={(papers) => void exportFile(PDF, papers)} />
      <CustomerSection
        job={job}
        numbering={numbering}
        onChange={onChange}
        onNumber={() => void numberOffer()}
      />
      <FilesSection {...state} onExport={(kind) => void exportFile(kind)} onSave={() => void saveJobFile()} />
      {!empty && (
        <RecordsSection
          key={job.id}
          results={results}
          today={today()}
          newId={newId}
          onChange={onChange}
          onPhoto={choosePhoto}
        />
      )}
      <LetterheadSection
        key={`letterhead ${job.id}`}
        job={job}
        numbering={numbering}
        onChange={onChange}
        onNumbering={setNumbering}
        onLogo={chooseLogo}
        onSaveBook={saveBook}
        onOpenBook={openBookFile}
      />
    </>
  );
}

const PDF = EXPORTS.find((e) => e.ending === 'pdf')!;

/** Changes what later jobs start with, from what any tab has made of it. */
async function setBook(change: (book: Book) => Book): Promise<Book | null> {
  const kept = await changeBook(change);
  if (!kept.ok) {
    sayProblem(kept.problem);
    return null;
  }
  store.setState({ book: kept.value });
  return kept.value;
}

const setNumbering = (numbering: Numbering): void => {
  store.setState({ book: { ...store.getState().book, numbering } });
  void setBook((book) => ({ ...book, numbering }));
};

/** Gives the offer the next number of this browser: the number is taken and counted on in one, whatever other tabs do. */
async function numberOffer(): Promise<void> {
  const job = currentJob().id;
  let taken = FIRST_NUMBER;
  const book = await setBook((now) => {
    taken = now.numbering ?? FIRST_NUMBER;
    return { ...now, numbering: { ...taken, next: taken.next + 1 } };
  });
  if (!book || currentJob().id !== job) return;
  change([{ type: 'name-offer', args: { offer: { number: offerNumber(taken), on: today() } } }]);
}

/** A logo is printed no larger than 54 by 21 mm: 600 by 240 pixels are sharp. */
const LOGO_PX = { width: 600, height: 240 };

const chooseLogo = (): void =>
  chooseFile('image/*', async (file) => {
    const job = currentJob().id;
    const small = await shrunk(file, LOGO_PX, 'image/png');
    if (!(small instanceof Blob)) {
      sayProblem(small);
      return;
    }
    const base64 = await toBase64(small);
    if (base64.length > LARGEST_LOGO_BASE64) {
      say(tr`The logo is too large even when it is made smaller: take one with fewer colours.`, 'problem');
    } else if (currentJob().id === job) {
      change([{ type: 'set-business', args: { logo: { type: 'image/png', base64 } } }]);
    }
  });

/** A photo of the work fills half a page at most. */
const PHOTO_PX = { width: 1600, height: 1600 };

const choosePhoto = (of: WorkRecord): void =>
  chooseFile('image/*', async (file) => {
    const job = currentJob().id;
    const small = await shrunk(file, PHOTO_PX, 'image/jpeg');
    if (!(small instanceof Blob)) {
      sayProblem(small);
      return;
    }
    // As it is by now: others may have been added, or it was struck out, or another job is open.
    const record = currentJob().records?.[of.id];
    if (!record || currentJob().id !== job) return;
    const id = newId('photo');
    keepPicture(id, small);
    change([{ type: 'set-record', args: { ...record, photos: [...record.photos, id] } }]);
  });

function saveBook(): void {
  const text = writeBookFile(store.getState().book);
  download(new Blob([text], { type: 'application/json' }), 'slabwright book.json');
  say(tr`Prices, packs, values, trials, letterhead and numbering were saved to a file.`);
}

const openBookFile = (): void =>
  chooseFile('.json,application/json', async (file) => {
    const text = await file.text();
    if (!looksLikeBook(text)) {
      sayProblem({ code: 'file/not-a-book', file: file.name });
      return;
    }
    const read = readBook(text);
    await setBook((book) => joinedBooks(book, read));
    say(tr`Later jobs start with what the file holds too; the job that is open stays as it is.`);
  });
