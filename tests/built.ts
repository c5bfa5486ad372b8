import { spawnSync } from 'node:child_process';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

/**
 * `tsx tests/built.ts bench/geometry.ts …`: builds a program of the tests as the product is built, then runs it with the
 * rest of the arguments; what runs TypeScript as it stands slows closures down several times over.
 */
const [program, ...rest] = process.argv.slice(2);
if (!program) throw new Error('which program?');
const here = dirname(fileURLToPath(import.meta.url));
const name = program.replace(/\W+/g, '-').replace(/-ts$/, '');
const outDir = `${here}/../node_modules/.cache/built/${name}`;
await build({
  root: here,
  configFile: false,
  logLevel: 'error',
  build: {
    ssr: program,
    outDir,
    emptyOutDir: true,
    target: 'es2022',
    rolldownOptions: { output: { entryFileNames: 'program.js' } },
  },
});
process.exitCode =
  spawnSync(process.execPath, [`${outDir}/program.js`, ...rest], { stdio: 'inherit' }).status ?? 1;
