import { fileURLToPath } from 'node:url';
import { build } from 'vite';

/** Builds the benchmark as the product is built, then runs it: what runs TypeScript directly slows closures down. */
const outDir = fileURLToPath(new URL('../../node_modules/.cache/bench', import.meta.url));
await build({
  root: fileURLToPath(new URL('.', import.meta.url)),
  configFile: false,
  logLevel: 'error',
  build: { ssr: 'geometry.ts', outDir, emptyOutDir: true, target: 'es2022' },
});
await import(`${outDir}/geometry.js`);
