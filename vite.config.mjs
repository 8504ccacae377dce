// `vite build --mode dist | serve` bundles the page and its worker around their programs of that
// Cargo build.
import { defineConfig } from 'vite';

export default defineConfig(({ mode }) => ({
  // Relative addresses: the page works from any folder of any host.
  base: './',
  resolve: {
    alias: { '#wasm': new URL(`./build/wasm/${mode}`, import.meta.url).pathname },
  },
  // Under its own names: what browsers and systems look for there.
  publicDir: 'web/public',
  build: {
    outDir: mode === 'dist' ? 'dist' : `build/${mode}`,
    emptyOutDir: true,
    // Top-level await, and what the Rust target emits by default.
    target: ['chrome111', 'edge111', 'firefox114', 'safari16.4'],
    // Nothing becomes a data: address, which the content security policy forbids for most kinds.
    assetsInlineLimit: 0,
    // Every browser of the target preloads modules by itself.
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  // Module workers import their wasm as the page does.
  worker: { format: 'es' },
}));
