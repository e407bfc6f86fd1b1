import { loader } from './loader.ts';

/** What workers do: answer the page, read files, walk. */
export type Role = 'thinker' | 'opener' | 'walker';

/** Workers that were started before the page's program was read. */
interface Begun {
  prober: Worker | null;
  walkers: Worker[];
}

const begun = (): Begun => {
  const there = globalThis as { mistwiseBegun?: Begun };
  there.mistwiseBegun ??= { prober: null, walkers: [] };
  return there.mistwiseBegun;
};

/** Starts those workers that the first figures need. */
export function begin(): void {
  const count = Math.max(2, Math.min(4, navigator.hardwareConcurrency));
  begun().prober = startWorker('thinker', 'prober');
  for (let i = 0; i < count; i++) begun().walkers.push(startWorker('walker', 'walker'));
}

/** Hands over what has been started. */
export function takeBegun(): { prober: Worker; walkers: readonly Worker[] } {
  const { prober, walkers } = begun();
  if (prober === null) throw new Error('no worker has been started');
  return { prober, walkers };
}

/** Starts a worker on the parts that it needs, out of the page's own text: a page from disk can fetch nothing. */
export function startWorker(role: Role, name: string): Worker {
  const url = URL.createObjectURL(new Blob([programOf(role)], { type: 'text/javascript' }));
  const worker = new Worker(url, { name });
  // read by now, or about to be: an address that is taken back at once may come too soon
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
  return worker;
}

function programOf(role: Role): string {
  const plan = JSON.parse(textOf('[id="plan"]')) as Record<Role, { first: string[]; late: string[] }>;
  const { first, late } = plan[role];
  // what may be asked for later goes along as text, which costs nothing until it is run
  const texts = JSON.stringify(Object.fromEntries(late.map((part) => [part, partText(part)])));
  return [
    `var late=${texts};var {part,need}=(${loader})((n)=>late[n]);`,
    ...first.map(partText),
    `need('${role}.js')`,
  ].join('\n');
}

function partText(name: string): string {
  return textOf(`[data-part="${name}"]`);
}

function textOf(selector: string): string {
  return document.querySelector(selector)?.textContent ?? '';
}
