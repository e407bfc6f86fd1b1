import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build, defineConfig, type Plugin, type Rollup } from 'vite';
import { readTaskDocument } from '../../src/study/read-task.ts';

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const DEMO = '../../terrains/demo/';

/** What packages would bring into the page a second time, or for nothing. */
const STAND_INS = {
  'zstddec/stream': 'zstddec',
  pako: at('inflater.ts'),
  '@stdlib/string-format': at('plain-format.cjs'),
  '@xmldom/xmldom': at('xml-reader.ts'),
};

/** `dist/mistwise.html`: the page, its workers and the demo ground in one file that opens by double click. */
export default defineConfig({
  root: at('.'),
  plugins: [ownDocument(), oneFile()],
  resolve: { alias: STAND_INS },
  build: {
    target: 'es2022',
    // the sheets as they are: lowered ones would not be those of the report
    cssTarget: 'esnext',
    outDir: at('../../dist'),
    emptyOutDir: false,
    modulePreload: false,
    rollupOptions: {
      // the preloader that the builder adds names `import.meta` in branches that a page from disk never takes
      onwarn: (warning, warn) => warning.code !== 'EMPTY_IMPORT_META' && warn(warning),
      // the renderer of the report is a program of its own, which the page asks for when a report is saved
      preserveEntrySignatures: 'strict',
      input: {
        report: at('../report/node-entry.ts'),
        page: at('entries/page.ts'),
        thinker: at('entries/thinker.ts'),
        opener: at('entries/opener.ts'),
      },
      // what the page and its workers share is in the file once
      output: { format: 'cjs', entryFileNames: '[name].js', chunkFileNames: '[name].js' },
    },
  },
});

/** In a browser the report is drawn in the browser's own documents. */
function ownDocument(): Plugin {
  return {
    name: 'own-document',
    enforce: 'pre',
    resolveId: (source) => (source.endsWith('theme/node-document.ts') ? at('browser-document.ts') : null),
  };
}

type Chunks = ReadonlyMap<string, Rollup.OutputChunk>;

/** Puts the parts and the demo into the template. Classic scripts: module scripts do not load from disk. */
function oneFile(): Plugin {
  return {
    name: 'one-file',
    enforce: 'post',
    async generateBundle(_, bundle) {
      const chunks: Map<string, Rollup.OutputChunk> = new Map();
      for (const [name, item] of Object.entries(bundle)) {
        if (item.type === 'chunk') chunks.set(item.fileName, item as never);
        delete bundle[name];
      }
      const [boot, walker] = await Promise.all([alone('boot'), alone('walker')]);
      const [page, thinker, opener] = ['page', 'thinker', 'opener'].map((role) => needs(chunks, role));
      const plan = { thinker, opener, walker: { first: ['walker.js'], late: [] } };
      const parts = [...chunks.values()].map((c) => ({
        name: c.fileName,
        text: asPart(c.fileName, c.code),
        // what workers share with the page they read first: the page takes it from its own text when it needs it
        run: page!.first.includes(c.fileName) && !thinker!.first.includes(c.fileName),
      }));
      parts.push({ name: 'walker.js', text: asPart('walker.js', walker), run: false });
      const script = (p: (typeof parts)[number]) =>
        `<script${p.run ? '' : ' type="text/plain"'} data-part="${p.name}">${inScript(p.text)}</script>`;
      // the workers' parts stand before the page's, and are started on before the page's are read
      const program = [
        ...parts.filter((p) => !p.run).map(script),
        `<script type="application/json" id="plan">${JSON.stringify(plan)}</script>`,
        `<script>${inScript(boot)}</script>`,
        ...parts.filter((p) => p.run).map(script),
        `<script>need('page.js')</script>`,
      ];
      const html = readFileSync(at('page.html'), 'utf8')
        .replace('<!--demo-->', () => demo())
        .replace('<!--program-->', () => program.join('\n'));
      this.emitFile({ type: 'asset', fileName: 'mistwise.html', source: html });
    },
  };
}

/** A script of its own that shares nothing: what walks calls its mathematics without a way round. */
async function alone(entry: string): Promise<string> {
  const made = await build({
    root: at('.'),
    configFile: false,
    logLevel: 'warn',
    resolve: { alias: STAND_INS },
    build: {
      write: false,
      target: 'es2022',
      lib: {
        entry: at(`entries/${entry}.ts`),
        formats: ['iife'],
        name: 'mistwise',
        fileName: () => `${entry}.js`,
      },
    },
  });
  const [first] = Array.isArray(made) ? made : [made as Rollup.RollupOutput];
  return first!.output.map((o) => (o.type === 'chunk' ? o.code : '')).join('');
}

/** The parts that a role reads at once, and those that it may ask for later. */
function needs(chunks: Chunks, role: string): { first: string[]; late: string[] } {
  const first = new Set<string>();
  const late = new Set<string>();
  const take = (name: string, into: Set<string>): void => {
    const chunk = chunks.get(name);
    if (chunk === undefined || first.has(name) || into.has(name)) return;
    for (const other of chunk.imports) take(other, into);
    into.add(name);
    for (const other of chunk.dynamicImports) take(other, late);
  };
  take(`${role}.js`, first);
  return { first: [...first], late: [...late].filter((name) => !first.has(name)) };
}

function asPart(name: string, code: string): string {
  return `part(${JSON.stringify(name)},function(exports,require,module){${code}\n});`;
}

function inScript(text: string): string {
  return text.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--');
}

/** The demo as data: its files, and its first task, read beforehand. */
function demo(): string {
  const text = (name: string) => readFileSync(at(`${DEMO}${name}`), 'utf8');
  const data = {
    terrainJson: text('terrain.json'),
    elevation: readFileSync(at(`${DEMO}elevation.tif`)).toString('base64'),
    features: text('features.geojson'),
    task: readTaskDocument(text('demo.task.yaml'), 'demo.task.yaml').value,
  };
  const json = JSON.stringify(data).replaceAll('<', '\\u003c');
  return `<script type="application/json" id="demo">${json}</script>`;
}
