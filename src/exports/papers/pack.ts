import type { Content, TDocumentDefinitions } from 'pdfmake/interfaces';
import { QUIET } from '../../drafting/inks.ts';
import type { Results } from '../../results.ts';
import { language } from '../../words/language.ts';
import { tr } from '../../words/tr.ts';
import type { Desk, Typeface } from '../desk.ts';
import { paperOf } from '../drawing/paper.ts';
import { PAPER_CONTENTS } from './index.ts';
import { PAPER_IDS, type Writing } from './paper.ts';
import { MM, quiet, set } from './parts.ts';

/** What the typeface is called in the document, and in the drawings that are set into it. */
const TYPEFACE = 'DejaVu Sans Condensed';

/** The papers that are wanted in one document with bookmarks, true to scale, its typeface inside. */
export async function papersPdf(results: Results, desk: Desk): Promise<Uint8Array | null> {
  const { job } = results;
  const paper = paperOf(job);
  const writing: Writing = { results, desk, paper };
  const content: Content[] = [];
  for (const id of PAPER_IDS) {
    if (desk.papers && !desk.papers.has(id)) continue;
    content.push(...(await PAPER_CONTENTS[id](writing)));
  }
  if (content.length === 0) return null;
  const strange = lettersNotSet(results);
  if (strange) content.push(strange);
  const footer = [job.business?.name ?? '', job.name, job.offer?.number ?? ''].filter(Boolean).join(' · ');
  return writePdf(
    {
      info: {
        title: [job.offer?.number, job.name].filter(Boolean).join(' · '),
        author: job.business?.name ?? '',
        creator: 'slabwright',
      },
      language,
      version: '1.7',
      subset: 'PDF/A-2b',
      displayTitle: true,
      pageSize: paper.id,
      // Said of the document, as the first page has no break before it to say so.
      pageOrientation: orientationOf(content[0]),
      pageMargins: [16 * MM, 16 * MM, 16 * MM, 18 * MM],
      defaultStyle: { font: TYPEFACE, fontSize: 9.5, lineHeight: 1.12 },
      footer: (page, pages) => ({
        columns: [
          { text: set(footer), width: '*' },
          { text: `${page} / ${pages}`, alignment: 'right', width: 60 },
        ],
        fontSize: 7,
        color: QUIET,
        margin: [16 * MM, 6 * MM, 16 * MM, 0],
      }),
      // A heading at the foot of a page goes over to the next with what it heads.
      pageBreakBefore: (node, nodes) =>
        node.headlineLevel === 1 && nodes.getFollowingNodesOnPage().length === 0,
      content: withoutFirstBreak(content),
    },
    await desk.fonts(),
  );
}

/** Scripts and pictures that the typeface has no letters for. */
const NOT_SET =
  /[\u0900-\u0dff\u0e00-\u0e7f\u1000-\u109f\u1100-\u11ff\u3000-\u9fff\uac00-\ud7af\uf900-\ufaff\u{1f680}-\u{1faff}\u{20000}-\u{3134f}]/u;

/** A sentence about names that cannot be set; null where all can. */
function lettersNotSet({ job, takeoff }: Results): Content | null {
  const names = [
    job.name,
    job.customer?.name ?? '',
    job.customer?.address ?? '',
    job.business?.name ?? '',
    ...takeoff.zones.flatMap((z) => [z.name, z.surface.colour]),
    ...Object.values(job.voids).map((v) => v.name),
  ];
  return names.some((n) => NOT_SET.test(n))
    ? quiet(
        tr`Some names in this job have letters that the typeface of these papers has not: they show as boxes.`,
      )
    : null;
}

/** How the first page lies. */
const orientationOf = (first: Content | undefined): 'portrait' | 'landscape' =>
  typeof first === 'object' && 'pageOrientation' in first && first.pageOrientation === 'landscape'
    ? 'landscape'
    : 'portrait';

/** A document does not begin with an empty page. */
function withoutFirstBreak(content: Content[]): Content[] {
  const [first, ...rest] = content;
  if (typeof first !== 'object' || !('pageBreak' in first)) return content;
  const { pageBreak: _gone, ...kept } = first as unknown as Record<string, unknown>;
  return [kept as unknown as Content, ...rest];
}

/** As much of the library as is used; its own types leave out the files it holds. */
interface PdfMaker {
  readonly virtualfs: { writeFileSync(name: string, bytes: Uint8Array): void };
  setUrlAccessPolicy(allowed: () => boolean): void;
  /** Not in browsers, where there are no local files. */
  setLocalAccessPolicy?(allowed: (path: string) => boolean): void;
  setFonts(fonts: Readonly<Record<string, { readonly normal: string; readonly bold: string }>>): void;
  createPdf(document: TDocumentDefinitions): { getBuffer(): Promise<Uint8Array> };
}

async function writePdf(document: TDocumentDefinitions, typeface: Typeface): Promise<Uint8Array> {
  const pdfmake = (await import('pdfmake')).default as unknown as PdfMaker;
  const file = (name: string, font: Uint8Array | string): string => {
    if (typeof font === 'string') return font;
    pdfmake.virtualfs.writeFileSync(name, font);
    return name;
  };
  const fonts = { normal: file('normal.ttf', typeface.normal), bold: file('bold.ttf', typeface.bold) };
  // Nothing is fetched: pictures are inside, and of this machine's files only the typeface is read.
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy?.((path) => path === fonts.normal || path === fonts.bold);
  pdfmake.setFonts({ [TYPEFACE]: fonts });
  return new Uint8Array(await pdfmake.createPdf(document).getBuffer());
}
