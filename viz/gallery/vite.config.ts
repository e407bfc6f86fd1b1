import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** A program for Node that writes the gallery from the sample report of the tests. */
export default defineConfig({
  root: at('.'),
  ssr: { noExternal: true },
  build: {
    target: 'node20',
    ssr: at('../../tests/figures/make-gallery.ts'),
    outDir: at('../../dist'),
    emptyOutDir: false,
    rollupOptions: { output: { entryFileNames: 'make-gallery.js', format: 'es' } },
  },
});
