import { Fragment, type ReactNode } from 'react';
import { partsOf } from '../words/tr.ts';

/** A text of this page’s language with elements in it: rich`Made with ${<a href="…">libraries</a>}.` */
export const rich = (english: TemplateStringsArray, ...values: readonly ReactNode[]): ReactNode =>
  // The pieces of a text never change places while it is shown.
  // biome-ignore lint/suspicious/noArrayIndexKey: so their numbers are what they are known by
  partsOf(english, values).map((piece, i) => <Fragment key={i}>{piece}</Fragment>);
