import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files of tests that take minutes, the longest first. */
const LONG = [
  'browser/crash',
  'outside/rollout',
  'browser/hostile',
  'properties/histories',
  'browser/access',
  'imports/material',
  'takeoff/coverage',
  'outside/packs',
  'outside/differential',
  'exports/workbook',
];

/** Begins with what takes longest, so that one thread is not left alone with it at the end. */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) => {
      const at = LONG.findIndex((name) => moduleId.endsWith(`tests/${name}.test.ts`));
      return at < 0 ? LONG.length : at;
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
  }
}
