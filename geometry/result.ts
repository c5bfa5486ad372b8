/** A value, or the reason why there is none. Plain data, so that it crosses threads and files unchanged. */
export type Result<T, P> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: P };

/** Wraps a value. */
export const ok = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value });

/** Wraps a problem. */
export const fail = <P>(problem: P): { readonly ok: false; readonly problem: P } => ({ ok: false, problem });
