import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';
import { LongestFirst } from './tests/longest-first.ts';

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

/** Files that the installed application opens, by kind and ending. */
const OPENED = {
  'application/json': ['.json'],
  'application/pdf': ['.pdf'],
  'image/vnd.dxf': ['.dxf'],
  'image/jpeg': ['.jpg', '.jpeg'],
  'image/png': ['.png'],
};

/**
 * What makes the page an application of its own: installed, kept whole for work without a network, opened by job files.
 * A newer version takes over once no page of the old one is open, so that no work is cut off by it.
 */
const installed = VitePWA({
  registerType: 'prompt',
  injectRegister: null,
  manifestFilename: 'slabwright.webmanifest',
  manifest: {
    name: 'slabwright',
    short_name: 'slabwright',
    description: 'Measure outdoor concrete and work out what it takes to coat it.',
    start_url: './',
    scope: './',
    display: 'standalone',
    background_color: '#f4f2ec',
    theme_color: '#f4f2ec',
    icons: [
      { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
      { src: 'icon-512.png', sizes: '512x512', type: 'image/png' },
      { src: 'icon-maskable.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
    ],
    file_handlers: [{ action: './', accept: OPENED }],
    // Answered by src/public/shared-files.js.
    share_target: {
      action: './shared',
      method: 'POST',
      enctype: 'multipart/form-data',
      params: {
        files: [{ name: 'files', accept: [...Object.keys(OPENED), ...Object.values(OPENED).flat()] }],
      },
    },
    launch_handler: { client_mode: 'focus-existing' },
  },
  workbox: {
    importScripts: ['shared-files.js'],
    globPatterns: ['**/*.{html,js,mjs,css,svg,png,jpg,ttf,json,csv,webmanifest,md}'],
    maximumFileSizeToCacheInBytes: 6_000_000,
    cleanupOutdatedCaches: true,
    sourcemap: false,
  },
});

export default defineConfig({
  root: 'src',
  base: './',
  plugins: [react(), policy, installed],
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
    // The tests read English, whatever the terminal that runs them speaks.
    env: { LC_ALL: 'C' },
    testTimeout: 120_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
  },
});
