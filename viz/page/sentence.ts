import { dateText } from '../../src/door/dates.ts';
import { FOOT, MILE, YARD } from '../../src/door/measures.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import type { Make } from '../theme/element.ts';
import { wishedFigures } from './reader-wishes.ts';
import type { Words } from './words.ts';

/** What a control of the sentence reads from a task and writes into it. */
interface Control {
  readonly name: string;
  readonly type: 'number' | 'choice' | 'date';
  readonly choices?: (words: Words) => Readonly<Record<string, string>>;
  readonly range?: readonly [low: number, high: number, step: number];
  read(task: WrittenTask): string;
  write(task: WrittenTask, value: string): WrittenTask;
}

/** A place is typed as a name or a grid reference and looked up by the page. */
export interface SentenceWishes {
  readonly change: (task: WrittenTask) => void;
  readonly place: (end: 'start' | 'target', text: string) => void;
  readonly placeText: (end: 'start' | 'target') => string;
}

type Conditions = NonNullable<WrittenTask['conditions']>;

function air(task: WrittenTask) {
  const { visibility = 5000 } = task.conditions ?? {};
  return typeof visibility === 'number'
    ? { below: visibility, above: Math.min(visibility, 100), cloudBase: null }
    : visibility;
}

function withConditions(task: WrittenTask, conditions: Partial<Conditions>): WrittenTask {
  return { ...task, conditions: { ...task.conditions, ...conditions } };
}

function withAir(
  task: WrittenTask,
  changed: Partial<{ below: number; above: number; cloudBase: number | null }>,
) {
  const { below, above, cloudBase } = { ...air(task), ...changed };
  return withConditions(task, { visibility: cloudBase === null ? below : { below, above, cloudBase } });
}

function withParty(task: WrittenTask, party: NonNullable<WrittenTask['party']>): WrittenTask {
  return { ...task, party: { ...task.party, ...party } };
}

function withLimits(task: WrittenTask, limits: NonNullable<WrittenTask['limits']>): WrittenTask {
  return { ...task, limits: { ...task.limits, ...limits } };
}

type Number3 = readonly [number, number, number];
const number = (
  name: string,
  range: Number3,
  read: (task: WrittenTask) => number | null | undefined,
  write: (task: WrittenTask, value: number) => WrittenTask,
): Control => ({
  name,
  type: 'number',
  range,
  read: (task) => String(read(task) ?? ''),
  write: (task, value) => {
    const n = Number(value);
    return value.trim() === '' || !Number.isFinite(n)
      ? task
      : write(task, Math.max(range[0], Math.min(range[1], n)));
  },
});

const CONTROLS: readonly Control[] = [
  {
    name: 'airKind',
    type: 'choice',
    choices: (w) => w.airs,
    read: (t) => (air(t).cloudBase === null ? 'clear' : 'cloud'),
    write: (t, v) => withAir(t, v === 'clear' ? { cloudBase: null } : { cloudBase: 500, above: 100 }),
  },
  number(
    'cloudBase',
    [-500, 9000, 5],
    (t) => air(t).cloudBase,
    (t, v) => withAir(t, { cloudBase: v }),
  ),
  number(
    'above',
    [1, 100_000, 5],
    (t) => air(t).above,
    (t, v) => withAir(t, { above: v }),
  ),
  number(
    'below',
    [1, 100_000, 10],
    (t) => air(t).below,
    (t, v) => withAir(t, { below: v }),
  ),
  {
    name: 'ground',
    type: 'choice',
    choices: (w) => w.grounds,
    read: (t) => t.conditions?.ground ?? 'normal',
    write: (t, v) => withConditions(t, { ground: v as NonNullable<Conditions['ground']> }),
  },
  {
    name: 'light',
    type: 'choice',
    choices: (w) => w.lights,
    read: (t) => t.conditions?.light ?? 'day',
    write: (t, v) => withConditions(t, { light: v as 'day' | 'dark' }),
  },
  number(
    'wind',
    [0, 60, 1],
    (t) => t.conditions?.wind?.metresPerSecond ?? 0,
    (t, v) => withConditions(t, { wind: { ...t.conditions?.wind, metresPerSecond: v } }),
  ),
  number(
    'windFrom',
    [0, 360, 5],
    (t) => t.conditions?.wind?.fromDegrees ?? 0,
    (t, v) => withConditions(t, { wind: { metresPerSecond: 0, ...t.conditions?.wind, fromDegrees: v } }),
  ),
  {
    name: 'date',
    type: 'date',
    read: (t) => t.conditions?.date ?? '',
    write: (t, v) => {
      const { date: _, ...rest } = t.conditions ?? {};
      return { ...t, conditions: v === '' ? rest : { ...rest, date: v } };
    },
  },
  {
    name: 'skill',
    type: 'choice',
    choices: (w) => w.skills,
    read: (t) => t.party?.skill ?? 'competent',
    write: (t, v) => withParty(t, { skill: v as 'novice' | 'competent' | 'expert' }),
  },
  number(
    'people',
    [1, 8, 1],
    (t) => t.party?.people ?? 2,
    (t, v) => withParty(t, { people: Math.round(v) }),
  ),
  {
    name: 'compass',
    type: 'choice',
    choices: (w) => w.compasses,
    read: (t) => ((t.party?.compass ?? true) ? 'yes' : 'no'),
    write: (t, v) => withParty(t, { compass: v === 'yes' }),
  },
  number(
    'minutes',
    [1, 10_000, 5],
    (t) => t.limits?.minutes,
    (t, v) => withLimits(t, { minutes: v }),
  ),
  number(
    'search',
    [0, 1000, 1],
    (t) => t.limits?.searchMinutes ?? 10,
    (t, v) => withLimits(t, { searchMinutes: v }),
  ),
  number(
    'relaunches',
    [0, 10, 1],
    (t) => t.limits?.relaunches ?? 1,
    (t, v) => withLimits(t, { relaunches: Math.round(v) }),
  ),
];

/** Fields that are in other units for those who read feet, yards and miles: how many of the task's one of them is. */
const IMPERIAL: Readonly<Record<string, { readonly is: number; readonly unit: keyof Words['units'] }>> = {
  cloudBase: { is: FOOT, unit: 'ft' },
  above: { is: YARD, unit: 'yd' },
  below: { is: YARD, unit: 'yd' },
  wind: { is: MILE / 3600, unit: 'mph' },
};

/** The same control with its figure in the reader's units, whole; a task is changed only by what is typed. */
function inUnits(control: Control, imperial: boolean): Control {
  const unit = imperial ? IMPERIAL[control.name] : undefined;
  if (unit === undefined) return control;
  const [low, high, step] = control.range!;
  const shown = (value: string) => (value === '' ? '' : String(Math.round(Number(value) / unit.is)));
  return {
    ...control,
    range: [Math.ceil(low / unit.is), Math.floor(high / unit.is), step],
    read: (task) => shown(control.read(task)),
    write: (task, value) =>
      value.trim() === '' || !Number.isFinite(Number(value))
        ? task
        : control.write(task, String(Math.round(Number(value) * unit.is * 100) / 100)),
  };
}

/** The task as a sentence whose words are the controls. */
export class Sentence {
  readonly element: HTMLElement;
  private readonly make: Make;
  private readonly wishes: SentenceWishes;
  private task: WrittenTask;
  private shape = '';
  private imperial = false;

  constructor(make: Make, task: WrittenTask, wishes: SentenceWishes) {
    this.make = make;
    this.wishes = wishes;
    this.task = task;
    this.element = make('p', { class: 'sentence' });
  }

  /** Shows a task; the words stay where they are unless another language, other units or the cloud ask for others. */
  show(task: WrittenTask, words: Words): void {
    this.task = task;
    const kind = air(task).cloudBase === null ? 'clear' : 'cloud';
    this.imperial = wishedFigures().imperial;
    const shape = `${words.language} ${kind} ${this.imperial}`;
    if (shape !== this.shape) {
      this.shape = shape;
      const focused = this.element.querySelector(':focus')?.getAttribute('data-control');
      this.build(words, kind);
      if (focused) this.element.querySelector<HTMLElement>(`[data-control="${focused}"]`)?.focus();
    }
    for (const control of CONTROLS) this.fill(control.name, inUnits(control, this.imperial).read(task));
    for (const said of this.element.querySelectorAll<HTMLElement>('.said-date')) {
      said.textContent = dateText(task.conditions?.date ?? '', words.language === 'Deutsch' ? 'de' : 'en');
    }
    for (const end of ['start', 'target'] as const) this.fill(end, this.wishes.placeText(end));
  }

  private fill(name: string, value: string): void {
    const field = this.element.querySelector<HTMLInputElement>(`[data-control="${name}"]`);
    if (field === null) return;
    if (field.value !== value) field.value = value;
    widen(field);
  }

  private build(words: Words, kind: 'clear' | 'cloud'): void {
    const said = words.sentence.replace('{air}', words[kind]);
    const text = this.imperial
      ? said.replace(/\{(\w+)\} m(?:\/s)?\b/g, (all, name) => {
          const unit = IMPERIAL[name]?.unit;
          return unit === undefined ? all : `{${name}} ${unit}`;
        })
      : said;
    const parts = text.split(/(\{\w+\}\S*)/).filter((part) => part !== '');
    this.element.replaceChildren(
      ...parts.map((part) => {
        const hole = /^\{(\w+)\}(\S*)$/.exec(part);
        if (hole === null) return part;
        // what follows a word stays on its line
        return this.make('span', { class: 'held' }, this.field(hole[1]!, words), hole[2]!);
      }),
    );
  }

  private field(name: string, words: Words): HTMLElement {
    const { make } = this;
    const unit = this.imperial ? IMPERIAL[name]?.unit : undefined;
    const own = words.controls[name] ?? name;
    const label = unit === undefined ? own : own.replace(/, [^,]+$/, `, ${words.units[unit]}`);
    const common = { 'data-control': name, 'aria-label': label, title: label, autocomplete: 'off' };
    const metric = CONTROLS.find((c) => c.name === name);
    if (metric === undefined) {
      const end = name as 'start' | 'target';
      const input = make('input', {
        ...common,
        type: 'text',
        list: 'places',
        spellcheck: 'false',
      }) as HTMLInputElement;
      input.addEventListener('change', () => this.wishes.place(end, input.value));
      input.addEventListener('input', () => widen(input));
      return input;
    }
    const control = inUnits(metric, this.imperial);
    if (control.choices !== undefined) {
      const select = make(
        'select',
        common,
        ...Object.entries(control.choices(words)).map(([value, said]) => make('option', { value }, said)),
      ) as HTMLSelectElement;
      select.addEventListener('change', () => this.wishes.change(control.write(this.task, select.value)));
      return select;
    }
    const [min, max, step] = control.range ?? [];
    const input = make('input', {
      ...common,
      type: control.type,
      min,
      max,
      step: step && 'any',
    }) as HTMLInputElement;
    input.addEventListener('input', () => widen(input));
    input.addEventListener('change', () => {
      const changed = control.write(this.task, input.value);
      if (changed === this.task) input.value = control.read(this.task);
      else this.wishes.change(changed);
    });
    // how a browser writes a date is its own affair
    if (control.type === 'date') return make('span', {}, input, make('span', { class: 'said-date' }));
    if (step !== undefined) {
      input.addEventListener('keydown', (event) => {
        if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
        event.preventDefault();
        const by = event.key === 'ArrowUp' ? step : -step;
        input.value = String(Math.max(min!, Math.min(max!, (Number(input.value) || 0) + by)));
        widen(input);
        input.dispatchEvent(new Event('change'));
      });
    }
    return input;
  }
}

/** Fields are as wide as what stands in them, so that the sentence reads as one. */
function widen(field: HTMLInputElement | HTMLSelectElement): void {
  if (field instanceof HTMLSelectElement || field.type === 'date') return;
  field.style.width = `${Math.max(2, field.value.length + (field.hasAttribute('list') ? 3 : field.type === 'text' ? 0.5 : 0.3))}ch`;
}
