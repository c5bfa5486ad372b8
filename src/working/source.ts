import { tr } from '../words/tr.ts';

/** Where a number comes from. A value without one does not type-check. */
export type Source =
  | { readonly kind: 'published'; readonly title: string; readonly edition: string; readonly clause: string }
  | { readonly kind: 'common practice' }
  | { readonly kind: 'from memory'; readonly of: string }
  | { readonly kind: 'derived'; readonly from: string }
  | { readonly kind: 'entered' }
  | { readonly kind: 'measured'; readonly how: string };

export const commonPractice: Source = { kind: 'common practice' };
export const entered: Source = { kind: 'entered' };

/** The source in words. */
export function sourceText(s: Source): string {
  switch (s.kind) {
    case 'published':
      return [s.title, s.edition, s.clause].filter(Boolean).join(', ');
    case 'common practice':
      return tr`common practice, no source`;
    case 'from memory':
      return tr`from memory: ${s.of}`;
    case 'derived':
      return s.from;
    case 'entered':
      return tr`entered by you`;
    case 'measured':
      return tr`measured: ${s.how}`;
  }
}
