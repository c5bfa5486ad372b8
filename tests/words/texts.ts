import { readdirSync, readFileSync } from 'node:fs';
import ts from 'typescript';

/** A text for people as it stands in the source. */
export interface SourceText {
  /** What the catalogues know it by: `{0}`, `{1}` … where values go. */
  readonly key: string;
  readonly where: string;
  /** How many values go into it. */
  readonly values: number;
}

/** What of one file of the source is tagged for translation, and what of its screens is not. */
export function textsOf(file: string): { readonly tagged: SourceText[]; readonly untagged: string[] } {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true);
  const [tagged, untagged]: [SourceText[], string[]] = [[], []];
  const where = (node: ts.Node) =>
    `${file}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1}`;
  const visit = (node: ts.Node): void => {
    if (ts.isTaggedTemplateExpression(node) && ['tr', 'rich'].includes(node.tag.getText())) {
      const { template } = node;
      const spans = ts.isTemplateExpression(template) ? template.templateSpans : [];
      const head = ts.isTemplateExpression(template) ? template.head.text : template.text;
      const key = spans.reduce((k, span, i) => `${k}{${i}}${span.literal.text}`, head);
      tagged.push({ key, where: where(node), values: spans.length });
    }
    if (ts.isJsxExpression(node) && !ts.isJsxAttribute(node.parent) && node.expression)
      for (const text of bareTexts(node.expression)) untagged.push(`${where(node)} ${text}`);
    if (
      ts.isPropertyAssignment(node) &&
      SAID.has(node.name.getText()) &&
      bareTexts(node.initializer).some((text) => / /.test(text.trim()))
    )
      untagged.push(`${where(node)} ${node.getText()}`);
    if (ts.isJsxText(node) && readable(node.text)) untagged.push(`${where(node)} ${node.text.trim()}`);
    if (
      ts.isJsxAttribute(node) &&
      node.initializer &&
      ts.isStringLiteral(node.initializer) &&
      SHOWN.has(node.name.getText()) &&
      readable(node.initializer.text)
    )
      untagged.push(`${where(node)} ${node.getText()}`);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return { tagged, untagged };
}

/** The texts that an expression may come to, as far as they stand in it untagged. */
function bareTexts(node: ts.Expression): string[] {
  if (ts.isParenthesizedExpression(node)) return bareTexts(node.expression);
  if (ts.isConditionalExpression(node)) return [node.whenTrue, node.whenFalse].flatMap(bareTexts);
  if (ts.isBinaryExpression(node)) return bareTexts(node.right);
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node))
    return readable(node.text) ? [node.text] : [];
  if (!ts.isTemplateExpression(node)) return [];
  const text = [node.head, ...node.templateSpans.map((s) => s.literal)].map((part) => part.text).join(' ');
  return readable(text) ? [text] : [];
}

/** What of plain data is said to people, wherever it is shown. */
const SAID = new Set([
  'detail',
  'expected',
  'explanation',
  'firstHint',
  'heading',
  'hint',
  'how',
  'label',
  'note',
  'plain',
  'primerReason',
  'reason',
  'sentence',
  'words',
]);

/** Attributes whose text people see or hear. */
const SHOWN = new Set(['alt', 'aria-label', 'caption', 'label', 'part', 'placeholder', 'title']);

/** Two letters in a row are a word, or as good as one; units are the same in every language. */
const readable = (text: string) => /\p{L}{2,}/u.test(text.replace(UNITS, ''));
const UNITS = /\b(?:mm|cm|km|kg|mL|min|ft|lb|px|in|gal)\b/g;

/** The files of the program, from the root of the project. */
export const sourceFiles = (): string[] =>
  readdirSync('src', { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => `src/${name}`)
    .sort();
