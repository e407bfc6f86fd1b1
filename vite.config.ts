import { defineConfig } from 'vite';

/** The program: one file per entry and shared chunks, every package bundled, so that it starts quickly and needs no node_modules. */
export default defineConfig({
  build: {
    ssr: true,
    target: 'node20',
    outDir: 'dist',
    // The report's template and the page are built into the same folder by their own configs.
    emptyOutDir: false,
    minify: true,
    rollupOptions: {
      input: {
        mistwise: 'src/cli/main.ts',
        'walk-worker': 'src/cli/node/walk-worker.ts',
        'decode-worker': 'src/cli/node/decode-worker.ts',
      },
      output: {
        entryFileNames: '[name].js',
        chunkFileNames: '[name].js',
        format: 'es',
        // What the start needs stays apart from the engine, or help and messages would wait for it.
        codeSplitting: { groups: [{ name: 'start', test: /src\/door\/(user-error|quoted)\.ts/ }] },
      },
    },
  },
  ssr: { noExternal: true, target: 'node' },
});
