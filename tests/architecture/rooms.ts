import { posix } from 'node:path';
import { type Import, importsOf, parse } from './imports.ts';

/** The rooms of `src`, in the order of DEVELOPERS.md: each imports only from those before it. */
export const ROOMS = [
  'math',
  'door',
  'grid',
  'terrain',
  'features',
  'conditions',
  'party',
  'speed',
  'seeing',
  'cost',
  'search',
  'route',
  'walk',
  'study',
  'report',
  'cli',
] as const;

/** Parts of `viz` and what each may import of the others. */
const VIZ: Readonly<Record<string, readonly string[]>> = {
  theme: [],
  charts: ['theme'],
  map: ['theme'],
  report: ['theme', 'charts', 'map'],
  page: ['theme', 'charts', 'map'],
  gallery: ['theme', 'charts', 'map'],
};

/** The document's types are the contract that `study` fills in; `report` checks it. */
const CONTRACT = 'src/report/report.ts';
const NODE_ROOM = 'src/cli/node/';

/** What breaks the rules in these sources (path → text), one line each. */
export function violationsOfRooms(sources: ReadonlyMap<string, string>): string[] {
  const wrong: string[] = [];
  const homes = new Map<string, Map<string, string>>();
  for (const [path, text] of sources) {
    for (const found of importsOf(parse(path, text))) {
      const at = `${path}:${found.line}`;
      wrong.push(...violationsOfImport(path, found, at));
      const name = packageOf(found.specifier);
      if (name === null || name.startsWith('node:')) continue;
      const places = homes.get(name) ?? new Map<string, string>();
      homes.set(name, places.set(homeOf(path), at));
    }
  }
  for (const [name, places] of homes) {
    if (places.size > 1)
      wrong.push(
        `${name} lives in ${[...places.keys()].sort().join(' and ')}: ${[...places.values()].sort().join(', ')}`,
      );
  }
  return wrong.sort();
}

function violationsOfImport(path: string, { specifier, typeOnly }: Import, at: string): string[] {
  if (specifier === null) {
    // Files of the built program are only known by their place, and only the room that knows places opens them.
    return path.startsWith(NODE_ROOM) ? [] : [`${at} imports something unknown before it runs`];
  }
  if (specifier.startsWith('.'))
    return violationsBetween(path, posix.join(posix.dirname(path), specifier), typeOnly, at);
  if (specifier.startsWith('/') || specifier.startsWith('file:'))
    return [`${at} imports by an absolute path`];
  const name = packageOf(specifier)!;
  const wrong: string[] = [];
  if (isNode(name) && !path.startsWith(NODE_ROOM) && !isConfig(path))
    wrong.push(`${at} imports ${name} outside ${NODE_ROOM}`);
  if (path.startsWith('src/') && /^d3(-|$)/.test(name)) wrong.push(`${at} imports ${name} into the engine`);
  return wrong;
}

function violationsBetween(from: string, to: string, typeOnly: boolean, at: string): string[] {
  if (from.startsWith('src/')) {
    if (to === 'package.json') return from.startsWith('src/cli/') ? [] : [`${at} imports package.json`];
    if (!to.startsWith('src/')) return [`${at} imports ${to} into the engine`];
    const [own, other] = [roomOf(from), roomOf(to)];
    if (own === -1) return [`${at} is in no room`];
    if (other === -1) return [`${at} imports ${to}, which is in no room`];
    if (other <= own) return [];
    if (to === CONTRACT && typeOnly && own === ROOMS.indexOf('study')) return [];
    return [`${at} imports ${to}, a room below its own`];
  }
  if (from.startsWith('viz/') && to.startsWith('viz/')) {
    const [own, other] = [partOf(from), partOf(to)];
    const allowed = own === other || (VIZ[own] ?? []).includes(other);
    return allowed ? [] : [`${at} imports ${to}: ${own} does not import ${other}`];
  }
  return [];
}

function roomOf(path: string): number {
  return ROOMS.indexOf(path.split('/')[1] as (typeof ROOMS)[number]);
}

function partOf(path: string): string {
  return path.split('/')[1] ?? '';
}

/** Where a package may have its one home: a room of the engine, or the pictures as a whole. */
function homeOf(path: string): string {
  return path.startsWith('src/') ? path.split('/').slice(0, 2).join('/') : path.split('/')[0]!;
}

function packageOf(specifier: string | null): string | null {
  if (specifier === null || specifier.startsWith('.') || specifier.startsWith('/')) return null;
  if (specifier.startsWith('node:')) return specifier;
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
}

const BARE_NODE = [
  'fs',
  'path',
  'os',
  'url',
  'zlib',
  'child_process',
  'worker_threads',
  'crypto',
  'util',
  'stream',
  'http',
  'https',
  'net',
  'process',
  'module',
];

function isNode(name: string): boolean {
  return name.startsWith('node:') || BARE_NODE.includes(name);
}

function isConfig(path: string): boolean {
  return path.endsWith('vite.config.ts') || path === 'vitest.config.ts';
}
