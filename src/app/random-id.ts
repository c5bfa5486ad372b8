import type { Id } from '../job/types.ts';

/** A stable id that was not used before in this browser or any other. */
export function randomId(prefix: string): Id {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return `${prefix}-${[...bytes].map((b) => b.toString(36).padStart(2, '0')).join('')}`;
}
