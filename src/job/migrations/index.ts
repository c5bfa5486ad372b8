/**
 * What takes an old job file to the next version. Number n takes version n to n + 1; once released it is never
 * edited, and a saved file of that version is its test.
 */
type Migration = (file: Record<string, unknown>) => Record<string, unknown>;

const migrations: readonly Migration[] = [];

/** The version this program writes. */
export const CURRENT_SCHEMA = migrations.length + 1;

/** Brings a file of the given version up to date. */
export function migrate(file: Record<string, unknown>, version: number): Record<string, unknown> {
  return migrations.slice(version - 1).reduce((f, step) => step(f), file);
}
