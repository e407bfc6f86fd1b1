import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const DEMO = '../../terrains/demo/';

/** `dist/mistwise.html`: the page, its workers and the demo ground in one file that opens by double click. */
export default defineConfig({
  root: at('.'),
  plugins: [oneFile()],
  build: {
    target: 'es2022',
    outDir: at('../../dist'),
    emptyOutDir: false,
    lib: { entry: at('main.ts'), formats: ['iife'], name: 'mistwise', fileName: () => 'page.js' },
  },
});

/** Puts the one chunk and the demo into the template. A classic script: module scripts do not load from disk. */
function oneFile(): Plugin {
  return {
    name: 'one-file',
    enforce: 'post',
    generateBundle(_, bundle) {
      let script = '';
      for (const [name, item] of Object.entries(bundle)) {
        if (item.type === 'chunk') script += item.code;
        delete bundle[name];
      }
      const template = readFileSync(at('page.html'), 'utf8');
      const html = template
        .replace('<!--demo-->', () => demo())
        .replace(
          '<!--script-->',
          () => `<script id="program">${script.replaceAll('</script', '<\\/script')}</script>`,
        );
      this.emitFile({ type: 'asset', fileName: 'mistwise.html', source: html });
    },
  };
}

/** The demo as data: its files, and its first task. */
function demo(): string {
  const text = (name: string) => readFileSync(at(`${DEMO}${name}`), 'utf8');
  const data = {
    terrainJson: text('terrain.json'),
    elevation: readFileSync(at(`${DEMO}elevation.tif`)).toString('base64'),
    features: text('features.geojson'),
    task: text('demo.task.yaml'),
  };
  const json = JSON.stringify(data).replaceAll('<', '\\u003c');
  return `<script type="application/json" id="demo">${json}</script>`;
}
