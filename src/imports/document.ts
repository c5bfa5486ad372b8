import type { PDFDocumentProxy } from 'pdfjs-dist';
import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Sheet } from '../job/types.ts';
import { openPdf } from '../pdf-reader.ts';
import type { Problem } from '../problem.ts';
import { tr } from '../words/tr.ts';
import type { Imported, NewId } from './imported.ts';
import type { ImportOptions } from './options.ts';

/** The largest side of a page in points: 200 inches by the standard, times its largest user unit in use. */
const LARGEST_PAGE_PT = 1e6;

export const looksLikePdf = (bytes: Uint8Array): boolean =>
  new TextDecoder('latin1').decode(bytes.subarray(0, 1024)).includes('%PDF-');

/** Opens a PDF document. */
async function openDocument(
  bytes: Uint8Array,
  file: string,
  password: string | undefined,
): Promise<Result<PDFDocumentProxy, Problem>> {
  const task = await openPdf(bytes, password);
  try {
    return ok(await task.promise);
  } catch (error) {
    await task.destroy().catch(() => undefined);
    if (error instanceof Error && error.name === 'PasswordException') {
      return fail({ code: 'document/password', file, wrong: password !== undefined });
    }
    return fail({ code: 'document/broken', file });
  }
}

/** A sheet from one page of a document, as it is shown: turned as it says, cropped, in points of 1/72 inch. */
export async function importDocument(
  bytes: Uint8Array,
  file: string,
  options: ImportOptions,
  newId: NewId,
): Promise<Result<Imported, Problem>> {
  const document = await openDocument(bytes, file, options.password);
  if (!document.ok) return document;
  const pages = document.value.numPages;
  const number = options.page ?? 1;
  try {
    if (number < 1 || number > pages) return fail({ code: 'document/page', file, page: number, pages });
    const page = await document.value.getPage(number);
    const { width, height } = page.getViewport({ scale: 1 });
    if (!(width > 0 && height > 0 && width <= LARGEST_PAGE_PT && height <= LARGEST_PAGE_PT)) {
      return fail({ code: 'document/broken', file });
    }
    const imageId = newId('i');
    const base = file.replace(/\.\w+$/, '') || tr`Plan`;
    const sheet: Sheet = {
      id: newId('sheet'),
      name: pages > 1 ? tr`${base}, page ${number}` : base,
      picture: {
        imageId,
        widthPx: width,
        heightPx: height,
        page: number,
        ...(options.password === undefined ? {} : { password: options.password }),
      },
      fit: options.ratio === undefined ? null : { kind: 'page', ratio: options.ratio },
    };
    const mm = (pt: number) => ((pt * 25.4) / 72).toFixed(1);
    const notes = [tr`Page ${number} of ${pages}, ${mm(width)} × ${mm(height)} mm.`];
    if (options.password !== undefined) notes.push(tr`Its password is kept with the job.`);
    if (options.ratio === undefined) notes.push(tr`Say its scale, 1 : N, or set it from a length you know.`);
    return ok({
      sheet,
      edits: [{ type: 'add-sheet', args: sheet }],
      image: { id: imageId, type: 'application/pdf', bytes },
      notes,
      layers: [],
      pages,
    });
  } catch {
    return fail({ code: 'document/broken', file });
  } finally {
    await document.value.loadingTask.destroy();
  }
}
