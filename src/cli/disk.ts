import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { readJobFile, writeJobFile } from '../job/file.ts';
import type { JobFile } from '../job/types.ts';
import { type Problem, sentence } from '../problem.ts';
import { type Results, results } from '../results.ts';
import { tr } from '../words/tr.ts';

/** What was given is at fault: its message is the sentence that says so. */
export class InputAtFault extends Error {}

/** The job was looked at and is not sound; all there is to say has been said. */
export class NotSound extends Error {}

/** Ends the command with the problem's sentence. */
export const refuse = (problem: Problem): never => {
  throw new InputAtFault(sentence(problem));
};

/** What the system says against a file, in words. */
export const detailOf = (error: unknown): string => {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT') return tr`there is no such file or folder`;
  if (code === 'EISDIR') return tr`it is a folder`;
  if (code === 'EACCES') return tr`you may not`;
  return code ?? String(error);
};

/** A file's text, or the sentence that it cannot be read. */
export function readText(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    return refuse({ code: 'file/unreadable', file: path, detail: detailOf(error) });
  }
}

/** Whether a saved job is there, which no export writes over. */
export const isJobFile = (path: string): boolean =>
  existsSync(path) && readFileSync(path, 'utf8').slice(0, 100_000_000).includes('"slabwright job"');

/** A job as it was saved. */
export function loadFile(path: string): JobFile {
  const file = readJobFile(readText(path), basename(path));
  return file.ok ? file.value : refuse(file.problem);
}

/** A job, worked out. */
export const load = (path: string): Results => results(loadFile(path).job);

/** Saves a job. */
export function writeJob(path: string, file: JobFile): void {
  try {
    writeFileSync(path, writeJobFile(file));
  } catch (error) {
    refuse({ code: 'file/unwritable', file: path, detail: detailOf(error) });
  }
}

/** A file's bytes, or the sentence that it cannot be read. */
export function readBytes(path: string): Uint8Array {
  try {
    return new Uint8Array(readFileSync(path));
  } catch (error) {
    return refuse({ code: 'file/unreadable', file: path, detail: detailOf(error) });
  }
}
