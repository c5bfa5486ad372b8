import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Where the case files and real input files lie beside the project; they are not part of it. */
const root = fileURLToPath(new URL('../../shared/', import.meta.url));

/** The path of a file beside the project, or null, said once, where it is absent: the test is then skipped. */
export function beside(path: string): string | null {
  if (existsSync(root + path)) return root + path;
  console.log(`skipped: ${path} is not beside the project`);
  return null;
}
