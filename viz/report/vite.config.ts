import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** `dist/report-render.js`: the report's renderer for Node, everything inside but Node's own modules. */
export default defineConfig({
  root: at('.'),
  ssr: { noExternal: true },
  build: {
    target: 'node20',
    ssr: at('node-entry.ts'),
    outDir: at('../../dist'),
    emptyOutDir: false,
    rollupOptions: { output: { entryFileNames: 'report-render.js', format: 'es' } },
  },
});
