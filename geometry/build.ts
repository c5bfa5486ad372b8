import { fileURLToPath } from 'node:url';
import { build } from 'vite';

/** Writes the package's `slabwright/geometry` for Node and bundlers: one module, its libraries left to be installed. */
await build({
  root: fileURLToPath(new URL('.', import.meta.url)),
  configFile: false,
  logLevel: 'warn',
  build: { ssr: 'index.ts', outDir: '../dist/geometry', emptyOutDir: true, target: 'es2022' },
});
