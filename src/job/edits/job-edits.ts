import { ok } from '../../../geometry/result.ts';
import type { Settings } from '../types.ts';
import type { EditKind } from './edit.ts';

export const renameJob: EditKind<{ readonly name: string; readonly note: string }> = {
  label: () => 'Describe the job',
  apply: (job, { name, note }) => ok({ ...job, name, note }),
};

export const changeSettings: EditKind<Partial<Settings>> = {
  label: () => 'Change settings',
  apply: (job, change) => ok({ ...job, settings: { ...job.settings, ...change } }),
};

/** Replaces a default value of the calculator; null goes back to the default. */
export const setValue: EditKind<{ readonly key: string; readonly value: number | null }> = {
  label: () => 'Change a value',
  apply: (job, { key, value }) => {
    const { [key]: _old, ...rest } = job.values;
    return ok({ ...job, values: value === null ? rest : { ...rest, [key]: value } });
  },
};
