/** Where a command writes to. */
export interface Terminal {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

/** Writes text so that the next begins on a line of its own. */
export const sayTo =
  ({ out }: Terminal) =>
  (text: string): void =>
    out(text.endsWith('\n') ? text : `${text}\n`);

/** As JSON to read or to pipe on. */
export const json = (value: unknown): string => JSON.stringify(value, null, 1);
