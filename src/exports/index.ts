import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Problem } from '../problem.ts';
import type { Results } from '../results.ts';
import { csvExports } from './csv.ts';
import type { Desk } from './desk.ts';
import { dxfExport } from './dxf.ts';
import type { Export } from './export.ts';
import { geojsonExport } from './geojson.ts';
import { icsExport } from './ics.ts';
import { jsonExport } from './json.ts';
import { pdfExport } from './pdf.ts';
import { svgExport } from './svg.ts';
import { xlsxExport } from './xlsx.ts';

/** Every kind of file that can be written, in the order they are offered. */
export const EXPORTS: readonly Export[] = [
  pdfExport,
  xlsxExport,
  svgExport,
  dxfExport,
  geojsonExport,
  ...csvExports,
  jsonExport,
  icsExport,
];

/** The export that a file's name asks for. */
export function exportFor(fileName: string): Result<Export, Problem> {
  const byLength = [...EXPORTS].sort((a, b) => b.ending.length - a.ending.length);
  const found = byLength.find((e) => fileName.toLowerCase().endsWith(`.${e.ending}`));
  const known = EXPORTS.map((e) => `.${e.ending}`).join(', ');
  return found ? ok(found) : fail({ code: 'export/kind', file: fileName, known });
}

/** The file's bytes, or why there is nothing to write. */
export async function writeExport(
  kind: Export,
  results: Results,
  desk: Desk,
): Promise<Result<Uint8Array, Problem>> {
  if (results.takeoff.zones.length === 0) return fail({ code: 'export/empty' });
  const problem = kind.refuse?.(results) ?? null;
  if (problem) return fail(problem);
  try {
    const bytes = await kind.write(results, desk);
    return bytes ? ok(bytes) : fail({ code: 'export/nothing' });
  } catch (error) {
    return fail({ code: 'export/failed', detail: error instanceof Error ? error.message : String(error) });
  }
}

export type { Export } from './export.ts';
