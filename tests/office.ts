import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Whether a program of the machine is there; said in one line where it is not, and what needs it is skipped. */
export function installed(program: string, ...asked: readonly string[]): boolean {
  const found = spawnSync(program, asked.length > 0 ? asked : ['--version'], { encoding: 'utf8' });
  if (!found.error && found.status === 0) return true;
  console.log(`skipped: ${[program, ...asked].join(' ')} is not on this machine`);
  return false;
}

/** Has the office program open files, work every formula out anew whatever results they hold, and save them. */
export function recalculated(files: Readonly<Record<string, Uint8Array>>): Record<string, Buffer> {
  const dir = mkdtempSync(join(tmpdir(), 'slabwright-office-'));
  const [settings, out] = [join(dir, 'settings'), join(dir, 'out')];
  mkdirSync(join(settings, 'user'), { recursive: true });
  writeFileSync(
    join(settings, 'user', 'registrymodifications.xcu'),
    `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`,
  );
  const names = Object.keys(files);
  for (const name of names) writeFileSync(join(dir, `${name}.xlsx`), files[name]!);
  const run = spawnSync(
    'soffice',
    [
      `-env:UserInstallation=file://${settings}`,
      '--headless',
      '--convert-to',
      'xlsx',
      '--outdir',
      out,
      ...names.map((name) => join(dir, `${name}.xlsx`)),
    ],
    { encoding: 'utf8' },
  );
  if (run.status !== 0) throw new Error(`the office program failed: ${run.stderr}`);
  return Object.fromEntries(names.map((name) => [name, readFileSync(join(out, `${name}.xlsx`))]));
}
