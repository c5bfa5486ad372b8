import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

/**
 * What the built page may do: run its own scripts and no text as a script, ask nobody but where it came from, look like
 * nothing else. WebAssembly is for pictures of phones (HEIC).
 */
const POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' blob: data:",
  "font-src 'self' data:",
  "connect-src 'self' blob: data:",
  "worker-src 'self' blob:",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

const policy: Plugin = {
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
      injectTo: 'head-prepend',
    },
  ],
};

export default defineConfig({
  root: 'src',
  base: './',
  plugins: [react(), policy],
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    target: 'es2022',
    chunkSizeWarningLimit: 1200,
    license: { fileName: 'licences.md' },
  },
  worker: { format: 'es' },
  server: { host: '127.0.0.1', fs: { allow: ['..'] } },
  preview: { host: '127.0.0.1' },
  test: {
    root: '.',
    include: ['tests/**/*.test.ts'],
    testTimeout: 120_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
  },
});
