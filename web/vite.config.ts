import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

// The page is served by `lodeway serve` from its own binary under a Content-Security-Policy that
// allows files of its own origin only: nothing may be inlined, neither as script nor as data.
export default defineConfig({
  plugins: [svelte()],
  build: { assetsInlineLimit: 0, modulePreload: { polyfill: false }, target: 'es2022' },
  server: { proxy: { '/api': 'http://127.0.0.1:8431', '/tiles': 'http://127.0.0.1:8431' } },
  test: { include: ['src/**/*.test.ts'] },
});
