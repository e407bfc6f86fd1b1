import type { Report } from '../../src/report/report.ts';
import type { Child, Make } from '../theme/element.ts';
import { thousands } from '../theme/words.ts';
import type { Mode } from './board.ts';
import { lightRoutes } from './lighting.ts';
import type { ReportSize } from './saving.ts';
import { filled, LANGUAGES, type Words } from './words.ts';

export interface FrameWishes {
  mode(mode: Mode): void;
  finish(): void;
  scale(by: number): void;
  undo(): void;
  redo(): void;
  typed(text: string, set: boolean): void;
  language(name: string): void;
  theme(name: string): void;
  units(name: string): void;
  angles(name: string): void;
  newRoute(): void;
  openFiles(files: readonly File[]): void;
  saveZip(): void;
  saveTask(): void;
  saveReport(size: ReportSize): void;
  demo(): void;
  picture(): void;
}

const PARTS = ['routes', 'editor', 'found-by', 'time-success', 'legs', 'missing', 'group'] as const;
type Part = (typeof PARTS)[number];
type TextName = keyof Words['texts'];

/** The page's column: where everything stands, with the words of the language on it. */
export class Frame {
  private readonly make: Make;
  private readonly wishes: FrameWishes;
  private readonly parts: ReadonlyMap<Part, HTMLElement>;
  private readonly lines: Readonly<Record<'problem' | 'state', HTMLElement>>;
  private readonly verdictRoom: HTMLElement;
  private readonly limits: HTMLElement;
  private readonly titleRoom: HTMLElement;
  private readonly settings: HTMLElement;
  private readonly legendRoom: HTMLElement;
  private readonly cautions: HTMLElement;
  private readonly keptRoom: HTMLElement;
  private readonly places: HTMLElement;
  private readonly main: HTMLElement;
  private readonly worded: { element: HTMLElement; name: TextName }[] = [];
  private readonly modes = new Map<Mode, HTMLButtonElement>();
  private readonly givenLines: HTMLElement[] = [];
  private pictureButton: HTMLButtonElement | null = null;
  private readonly finishButton: HTMLButtonElement;
  private readonly undoButton: HTMLButtonElement;
  private readonly redoButton: HTMLButtonElement;

  constructor(make: Make, board: HTMLElement, sentence: HTMLElement, wishes: FrameWishes) {
    this.make = make;
    this.wishes = wishes;
    this.parts = new Map(PARTS.map((p) => [p, make('div', { class: `part-${p}` })]));
    this.lines = {
      problem: make('p', { class: 'problem', role: 'alert' }),
      state: make('p', { class: 'state', role: 'status' }),
    };
    this.verdictRoom = make('div', { class: 'verdict', 'aria-live': 'polite' });
    this.limits = make('p', { class: 'note' });
    this.titleRoom = make('span', {});
    this.settings = make('span', { class: 'settings' });
    this.legendRoom = make('div', { class: 'legend' });
    this.cautions = make('ul', { class: 'plain' });
    this.keptRoom = make('p', { class: 'note' });
    this.places = make('datalist', { id: 'places' });
    this.finishButton = this.button('finish', () => wishes.finish());
    this.undoButton = this.button('undo', () => wishes.undo());
    this.redoButton = this.button('redo', () => wishes.redo());
    this.main = make(
      'main',
      {},
      make(
        'header',
        {},
        make('div', { class: 'kicker' }, make('h1', {}, 'mistwise'), this.titleRoom, this.settings),
        sentence,
        this.lines.problem,
        this.verdictRoom,
        this.lines.state,
        this.limits,
      ),
      this.section('map', 'map', this.tools(), board, this.placeForm(), this.legendRoom),
      this.section(
        'routes-part',
        'routes',
        this.given(),
        this.part('routes'),
        make(
          'p',
          { class: 'tools' },
          this.button('newRoute', () => wishes.newRoute()),
        ),
        this.part('editor'),
      ),
      this.section('time', 'timeSuccess', this.given(), this.part('time-success')),
      this.section('found', 'foundBy', this.given(), this.part('found-by')),
      this.section('strips', 'legs', this.given(), this.part('legs'), this.text('p', 'legsNote', 'note')),
      this.section('lacks', 'missing', this.part('missing')),
      this.section('people', 'group', this.part('group')),
      this.section(
        'keep',
        'files',
        this.files(),
        this.text('p', 'dropNote', 'note'),
        this.keptRoom,
        this.pictureLine(),
      ),
      this.section('care', 'cautions', this.cautions),
      this.places,
    );
    document.body.append(this.main);
    lightRoutes(document.documentElement);
    this.legendRoom.addEventListener('change', (event) => this.switchLayer(event.target as HTMLInputElement));
    this.listenForDrops();
  }

  say(where: 'problem' | 'state', text: string): void {
    this.lines[where].textContent = text;
  }

  title(text: string): void {
    this.titleRoom.textContent = text;
    document.title = `${text} · mistwise`;
  }

  verdict(lines: readonly string[], limits: string): void {
    this.verdictRoom.replaceChildren(...lines.map((line) => this.make('p', {}, line)));
    this.limits.textContent = limits;
  }

  /** Writes a part anew; what had the focus in it keeps it. */
  fill(part: Part, ...content: readonly HTMLElement[]): void {
    const room = this.parts.get(part)!;
    const focused = document.activeElement;
    const at =
      focused !== null && room.contains(focused) ? [...room.querySelectorAll(FIELDS)].indexOf(focused) : -1;
    const open = [...room.querySelectorAll('details')].map((d) => d.open);
    room.replaceChildren(...content);
    // what was unfolded stays so
    for (const [i, d] of room.querySelectorAll('details').entries()) d.open = open[i] ?? false;
    if (at >= 0) (room.querySelectorAll<HTMLElement>(FIELDS)[at] ?? null)?.focus({ preventScroll: true });
  }

  mode(mode: Mode): void {
    for (const [name, button] of this.modes) button.setAttribute('aria-pressed', String(name === mode));
    this.finishButton.disabled = mode === 'look';
  }

  history(canUndo: boolean, canRedo: boolean): void {
    this.undoButton.disabled = !canUndo;
    this.redoButton.disabled = !canRedo;
  }

  /** Names that the fields for places offer. */
  offer(names: readonly string[]): void {
    this.places.replaceChildren(...names.map((value) => this.make('option', { value })));
  }

  width(): number {
    return Math.max(300, Math.min(880, this.parts.get('legs')!.clientWidth || 720));
  }

  words(
    words: Words,
    language: string,
    chosen: { theme: string; units: string; angles: string; kept: boolean },
  ): void {
    const t = words.texts;
    for (const { element, name } of this.worded) element.textContent = t[name];
    this.cautions.replaceChildren(...words.cautions.map((c) => this.make('li', {}, c)));
    this.keptRoom.textContent = chosen.kept ? t.kept : t.notKept;
    const languages = Object.fromEntries(Object.entries(LANGUAGES).map(([k, w]) => [k, w.language]));
    this.settings.replaceChildren(
      this.choice(t.languageLabel, languages, language, (v) => this.wishes.language(v)),
      this.choice(
        t.theme,
        { system: t.themeSystem, day: t.themeDay, night: t.themeNight },
        chosen.theme,
        (v) => this.wishes.theme(v),
      ),
      this.choice(t.units, { metric: t.metric, imperial: t.imperial }, chosen.units, (v) =>
        this.wishes.units(v),
      ),
      this.choice(t.angles, { degrees: t.degrees, mils: t.mils }, chosen.angles, (v) =>
        this.wishes.angles(v),
      ),
    );
  }

  /** The legend is the layer switch. Boxes keep their state while their words change. */
  legend(interval: number | null, report: Report, words: Words): void {
    const { make } = this;
    const t = words.texts;
    const off = new Set(
      [...this.legendRoom.querySelectorAll<HTMLInputElement>('input:not(:checked)')].map((i) => i.className),
    );
    const layer = (name: string, label: string) =>
      make(
        'li',
        {},
        make(
          'label',
          {},
          make('input', { type: 'checkbox', class: `switch-${name}`, checked: !off.has(`switch-${name}`) }),
          label,
        ),
      );
    const ends = Math.max(0, ...report.candidates.map((c) => c.endPoints.length));
    const assessed = report.candidates.some((c) => c.hazard !== 'not assessed');
    this.legendRoom.replaceChildren(
      make(
        'ul',
        { 'aria-label': t.layers },
        layer('routes', t.layerRoutes),
        layer('ends', t.layerEnds),
        layer('features', t.layerFeatures),
        layer('names', t.layerNames),
        layer('ground', t.layerGround),
        interval === null
          ? null
          : layer('contours', filled(t.layerContours, { interval: words.figures.measures.height(interval) })),
        layer('relief', t.layerRelief),
      ),
      make('p', {}, filled(t.endsNote, { n: ends, trials: thousands(report.task.trials) })),
      make('p', {}, `${t.doubtNote}. ${assessed ? t.hatchNote : t.hazardNote}`),
    );
  }

  /** A class and not `:has`, which would be asked anew at every step of a drag. */
  private switchLayer(box: HTMLInputElement): void {
    this.main.classList.toggle(box.className.replace('switch-', 'without-'), !box.checked);
  }

  /** For whom and in what the figures below it are. */
  give(text: string): void {
    for (const line of this.givenLines) line.textContent = text;
  }

  private given(): HTMLElement {
    const line = this.make('p', { class: 'note given' });
    this.givenLines.push(line);
    return line;
  }

  private part(name: Part): HTMLElement {
    return this.parts.get(name)!;
  }

  private section(id: string, name: TextName, ...content: readonly Child[]): HTMLElement {
    const heading = this.text('h2', name);
    heading.id = `${id}-heading`;
    return this.make('section', { id, 'aria-labelledby': heading.id }, heading, ...content);
  }

  private text(tag: string, name: TextName, kind?: string): HTMLElement {
    const element = this.make(tag, { class: kind });
    this.worded.push({ element, name });
    return element;
  }

  private button(name: TextName, action: () => void): HTMLButtonElement {
    const button = this.text('button', name) as HTMLButtonElement;
    button.type = 'button';
    button.addEventListener('click', action);
    return button;
  }

  private tools(): HTMLElement {
    const { make, wishes } = this;
    const mode = (name: Mode, text: TextName) => {
      const button = this.button(text, () => wishes.mode(name));
      button.setAttribute('aria-pressed', String(name === 'look'));
      this.modes.set(name, button);
      return button;
    };
    this.finishButton.disabled = true;
    return make(
      'div',
      { class: 'tools', role: 'toolbar' },
      mode('look', 'look'),
      mode('route', 'draw'),
      mode('start', 'setStart'),
      mode('target', 'setTarget'),
      mode('point', 'addPoint'),
      mode('line', 'addLine'),
      mode('area', 'addArea'),
      this.finishButton,
      make('span', { class: 'gap' }),
      this.undoButton,
      this.redoButton,
      this.button('nearer', () => wishes.scale(1.5)),
      this.button('farther', () => wishes.scale(1 / 1.5)),
      this.button('whole', () => wishes.scale(0)),
    );
  }

  private placeForm(): HTMLElement {
    const { make, wishes } = this;
    const input = make('input', {
      type: 'text',
      list: 'places',
      autocomplete: 'off',
      spellcheck: 'false',
    }) as HTMLInputElement;
    const form = make(
      'form',
      { class: 'tools' },
      make('label', {}, this.text('span', 'goTo'), ' ', input),
      this.button('goThere', () => wishes.typed(input.value, false)),
      this.button('setHere', () => wishes.typed(input.value, true)),
    );
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      if (input.value.trim() !== '') wishes.typed(input.value, true);
    });
    return form;
  }

  private files(): HTMLElement {
    const { make, wishes } = this;
    const input = make('input', {
      type: 'file',
      multiple: true,
      class: 'unseen',
      tabindex: -1,
      'aria-hidden': 'true',
    }) as HTMLInputElement;
    input.addEventListener('change', () => {
      wishes.openFiles([...(input.files ?? [])]);
      input.value = '';
    });
    return make(
      'div',
      { class: 'tools' },
      this.button('open', () => input.click()),
      input,
      this.button('saveZip', () => wishes.saveZip()),
      this.button('saveTask', () => wishes.saveTask()),
      this.button('saveReport', () => wishes.saveReport('page')),
      this.button('saveSheets', () => wishes.saveReport('sheets')),
      this.button('demo', () => wishes.demo()),
    );
  }

  private pictureLine(): HTMLElement {
    this.pictureButton = this.button('pictureOff', () => this.wishes.picture());
    this.pictureButton.hidden = true;
    return this.make('p', { class: 'note' }, this.text('span', 'picture'), ' ', this.pictureButton);
  }

  /** Whether a picture of one's own lies beneath the map. */
  pictured(there: boolean): void {
    if (this.pictureButton !== null) this.pictureButton.hidden = !there;
  }

  private choice(
    label: string,
    options: Readonly<Record<string, string>>,
    now: string,
    choose: (value: string) => void,
  ): HTMLElement {
    const { make } = this;
    const select = make(
      'select',
      {},
      ...Object.entries(options).map(([value, said]) =>
        make('option', { value, selected: value === now }, said),
      ),
    ) as HTMLSelectElement;
    select.addEventListener('change', () => choose(select.value));
    return make('label', {}, `${label} `, select);
  }

  private listenForDrops(): void {
    const { body } = document;
    body.addEventListener('dragover', (event) => {
      event.preventDefault();
      body.classList.add('dropping');
    });
    body.addEventListener('dragleave', (event) => {
      if (event.relatedTarget === null) body.classList.remove('dropping');
    });
    body.addEventListener('drop', (event) => {
      event.preventDefault();
      body.classList.remove('dropping');
      this.wishes.openFiles([...(event.dataTransfer?.files ?? [])]);
    });
  }
}

const FIELDS = 'input, select, button, textarea, [tabindex]';
