import { ok, type Result } from '../../geometry/result.ts';
import { readJobFile, writeJobFile } from '../job/file.ts';
import { imageIdsOf } from '../job/images.ts';
import type { Id, Job, JobImage } from '../job/types.ts';
import type { Problem } from '../problem.ts';
import type { KeptJob } from './job-store.ts';

/** The job with its pictures inside, as one file. */
export async function jobToBlob(job: Job, images: ReadonlyMap<Id, Blob>): Promise<Blob> {
  const inside: Record<Id, JobImage> = {};
  for (const id of imageIdsOf(job)) {
    const blob = images.get(id);
    if (blob) inside[id] = { type: blob.type, base64: await toBase64(blob) };
  }
  return new Blob([writeJobFile({ job, images: inside })], { type: 'application/json' });
}

/**
 * Reads a job file with the pictures inside it.
 * @param besides finds a picture that lies beside the file rather than in it, by its name
 */
export async function jobFromText(
  text: string,
  name: string,
  besides: (file: string) => Promise<Blob | null>,
): Promise<Result<KeptJob, Problem>> {
  const file = readJobFile(text, name);
  if (!file.ok) return file;
  const images = new Map<Id, Blob>();
  for (const [id, image] of Object.entries(file.value.images)) {
    const blob = 'base64' in image ? fromBase64(image.base64, image.type) : await besides(image.file);
    if (blob) images.set(id, blob);
  }
  return ok({ job: file.value.job, images });
}

/** Hands a file to the person. */
export function download(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** A name that every file system takes. */
export const fileName = (title: string, ending: string): string =>
  `${
    title
      .replace(/[^\p{L}\p{N} _-]+/gu, '')
      .trim()
      .slice(0, 80) || 'job'
  }.${ending}`;

/** A file's bytes as text. */
export async function toBase64(blob: Blob): Promise<string> {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let binary = '';
  // In pieces: a call takes only so many arguments.
  for (let i = 0; i < bytes.length; i += 0x8000)
    binary += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(binary);
}

function fromBase64(base64: string, type: string): Blob | null {
  try {
    return new Blob([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], { type });
  } catch {
    return null;
  }
}
