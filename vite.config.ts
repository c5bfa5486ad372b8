import react from '@vitejs/plugin-react';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: 'src',
  base: './',
  plugins: [react()],
  build: { outDir: '../dist', emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 1200 },
  worker: { format: 'es' },
  server: { host: '127.0.0.1', fs: { allow: ['..'] } },
  preview: { host: '127.0.0.1' },
  test: { root: '.', include: ['tests/**/*.test.ts'], testTimeout: 60_000 },
});
