import type { Content, TableCell, TableLayout } from 'pdfmake/interfaces';
import { DEFERENCE } from '../../coating/cautions.ts';
import { QUIET } from '../../drafting/inks.ts';
import { tr } from '../../words/tr.ts';

/** Points of a millimetre. */
export const MM = 72 / 25.4;

/** Words longer than this may be broken anywhere. */
const LONGEST_WORD = 24;

/** Text as it can be set: no control characters, and places to break in what has none. */
export const set = (text: string): string =>
  [...text]
    .map((c) => (c.codePointAt(0)! < 0x20 && c !== '\n' ? ' ' : c))
    .join('')
    .replace(new RegExp(`\\S{${LONGEST_WORD},}`, 'gu'), (word) =>
      word.replace(new RegExp(`.{${LONGEST_WORD}}`, 'gu'), '$&\u200b'),
    );

/** The title of a paper, on a page of its own and among the bookmarks. */
export const title = (text: string, first = false): Content => ({
  text: set(text),
  fontSize: 18,
  bold: true,
  margin: [0, 0, 0, 8],
  outline: true,
  outlineText: text,
  ...(first ? {} : { pageBreak: 'before' as const }),
  pageOrientation: 'portrait',
});

export const heading = (text: string): Content => ({
  text: set(text),
  fontSize: 11.5,
  bold: true,
  margin: [0, 10, 0, 3],
  headlineLevel: 1,
});

export const para = (text: string): Content => ({ text: set(text), margin: [0, 0, 0, 4] });

export const quiet = (text: string): Content => ({
  text: set(text),
  fontSize: 7.5,
  color: QUIET,
  margin: [0, 0, 0, 4],
});

export const bullets = (items: readonly string[]): Content => ({
  ul: items.map(set),
  margin: [0, 0, 0, 4],
});

/** A heading with its items; nothing where there are none. */
export const listed = (text: string, items: readonly string[]): Content[] =>
  items.length === 0 ? [] : [heading(text), bullets(items)];

/** A column of a table: its heading, and whether numbers stand in it. */
export interface TableColumn {
  readonly heading: string;
  readonly number?: boolean;
  /** Points, or what is left of the width; as wide as its text where absent. */
  readonly width?: number | '*';
}

const LINES: TableLayout = {
  hLineWidth: (i, node) => (i === 1 || i === node.table.body.length ? 0.8 : i === 0 ? 0 : 0.3),
  vLineWidth: () => 0,
  hLineColor: () => QUIET,
  paddingLeft: (i) => (i === 0 ? 0 : 4),
  paddingRight: () => 4,
  paddingTop: () => 2,
  paddingBottom: () => 2,
};

/** A table whose heading is repeated on each page; numbers are set right, the last row bold where it sums. */
export function table(
  columns: readonly TableColumn[],
  rows: ReadonlyArray<readonly string[]>,
  summed = false,
): Content {
  const cell = (text: string, column: TableColumn, bold: boolean): TableCell => ({
    text: set(text),
    ...(column.number ? { alignment: 'right' as const } : {}),
    ...(bold ? { bold } : {}),
  });
  return {
    table: {
      headerRows: 1,
      dontBreakRows: true,
      keepWithHeaderRows: 1,
      widths: columns.map((c) => c.width ?? 'auto'),
      body: [
        columns.map((c) => cell(c.heading, c, true)),
        ...rows.map((row, r) =>
          row.map((text, c) => cell(text, columns[c]!, summed && r === rows.length - 1)),
        ),
      ],
    },
    layout: LINES,
    fontSize: 8.5,
    margin: [0, 2, 0, 6],
  };
}

/** The cautions that the work calls for, and who goes before them. */
export const cautionsPart = (cautions: readonly { readonly words: string }[]): Content[] =>
  cautions.length === 0
    ? []
    : [
        heading(tr`Cautions`),
        { ul: cautions.map((c) => set(c.words)), fontSize: 8.5, margin: [0, 0, 0, 3] },
        { text: DEFERENCE, bold: true, fontSize: 8.5 },
      ];

/** What keeps a job from being ordered, and so from being mixed and rolled. */
export const stopped = (words: string, blocks: readonly { readonly sentence: string }[]): Content[] => [
  para(words),
  bullets(blocks.map((b) => b.sentence)),
];

/** Words beside each other, as of a form: what is asked, what is answered. */
export const pairs = (items: ReadonlyArray<readonly [string, string]>): Content => ({
  table: {
    widths: [110, '*'],
    body: items.map(([a, b]) => [{ text: set(a), color: QUIET }, { text: set(b) }]),
  },
  layout: 'noBorders',
  margin: [0, 0, 0, 6],
});
