import type { Point } from '../../src/math/plane.ts';
import type { DrawnLeg, PlaceName } from '../../src/route/drawn.ts';
import type { Make } from '../theme/element.ts';
import { routeStyle } from '../theme/route-style.ts';
import {
  type Legs,
  lineToFollow,
  placeFor,
  withMoved,
  withoutPoint,
  withPoint,
  withWay,
} from './drawing-board.ts';
import { type HandWishes, handOn } from './map-hand.ts';
import { MapView } from './map-view.ts';
import type { Probe, Understood } from './messages.ts';
import type { Places } from './places.ts';
import { type Figures, lengthText, ofHundred } from './said.ts';
import { filled, type Words } from './words.ts';

export type Mode = 'look' | 'route' | 'start' | 'target' | 'point' | 'line' | 'area';

/** What the board asks of the page. */
export interface BoardWishes {
  places(): Places | null;
  words(): Words;
  how(): Figures;
  start(): Point | null;
  /** Another shape of the route that is being changed. */
  commit(legs: Legs): void;
  probe(legs: Legs): number;
  /** The hand moves the map. */
  moves(): void;
  setEnd(end: 'start' | 'target', place: PlaceName): void;
  draw(shape: 'Point' | 'LineString' | 'Polygon', points: readonly Point[]): void;
  modeChanged(mode: Mode): void;
  /** No figures are to be seen before all routes of the group are opened. */
  sealed(): boolean;
}

/** The map with all that is drawn on it by hand. */
export class Board {
  readonly map: MapView;
  readonly element: HTMLElement;
  private readonly wishes: BoardWishes;
  private readonly make: Make;
  private readonly hint: HTMLElement;
  private readonly question: HTMLElement;
  private mode: Mode = 'look';
  private letter = 'A';
  private known: Understood | null = null;
  private line: readonly Point[] | null = null;
  private chosen: number | null = null;
  private carried: { base: Understood; at: Point } | null = null;
  private dragged: Understood | null = null;
  private begun: Point[] = [];
  private cursor: Point | null = null;
  private probeNumber = 0;
  private figure = '';

  constructor(make: Make, wishes: BoardWishes) {
    this.make = make;
    this.wishes = wishes;
    this.element = make('div', { class: 'board' });
    const holder = make('div', {});
    this.hint = make('p', { class: 'hint', 'aria-live': 'polite' });
    this.question = make('div', { class: 'question', role: 'group', 'aria-live': 'polite', hidden: true });
    this.element.append(holder, this.question, this.hint);
    this.map = new MapView(holder, wishes.words().texts.mapLabel);
    handOn(this.map, this.hand());
    new ResizeObserver(() => this.map.resize()).observe(holder);
  }

  get kind(): Mode {
    return this.mode;
  }

  setMode(mode: Mode): void {
    this.mode = mode;
    this.begun = [];
    this.settleCarried();
    this.map.element.classList.toggle('busy', mode !== 'look');
    this.ask(null);
    this.wishes.modeChanged(mode);
    this.show();
  }

  /** The route that is being changed, as the engine has understood it; null when none is. */
  setRoute(known: Understood | null, letter: string, line: readonly Point[] | null): void {
    if (this.dragged !== null || this.carried !== null) return;
    // its figures stand in the list of routes now
    this.figure = '';
    this.probeNumber = 0;
    if (known === null || this.known === null || known.name !== this.known.name) this.chosen = null;
    this.known = known;
    this.letter = letter;
    this.line = line;
    if (this.chosen !== null && this.chosen >= this.handles().length) this.chosen = null;
    this.show();
  }

  /** Figures of the dragged route have come. */
  probed(probe: Probe): void {
    if (probe.number !== this.probeNumber) return;
    const { words, how } = this.wishes;
    const t = words().texts;
    this.figure = filled(this.wishes.sealed() ? t.probeSealed : t.probe, {
      letter: this.letter,
      count: ofHundred(probe.share, words()),
      minutes: Math.round(probe.minutes),
      metres: lengthText(probe.metres, how()),
      trials: probe.trials,
    });
    this.line = probe.line;
    this.show();
  }

  /** A place that was typed: a press there. */
  pressAt(at: Point): void {
    this.map.lookAt(at);
    this.press(at, 15);
  }

  finish(): void {
    const shape = this.mode === 'line' ? 'LineString' : 'Polygon';
    const least = this.mode === 'line' ? 2 : 3;
    if ((this.mode === 'line' || this.mode === 'area') && this.begun.length >= least) {
      this.wishes.draw(shape, this.begun);
    }
    this.setMode('look');
  }

  show(): void {
    const { words, places } = this.wishes;
    const t = words().texts;
    const hints: Readonly<Record<Mode, string>> = {
      look: t.hintLook,
      route: this.carried === null ? t.hintRoute : t.hintCarry,
      start: t.hintStart,
      target: t.hintTarget,
      point: t.hintPoint,
      line: t.hintLine,
      area: t.hintArea,
    };
    const where = this.cursor === null ? '' : ` ${this.whereText(places(), this.cursor)}`;
    const figure = this.figure === '' ? null : this.make('b', {}, this.figure);
    this.hint.replaceChildren(...(figure ? [figure, ' '] : []), hints[this.mode], where);
    this.map.setLabel(t.mapLabel);
    this.map.setSketch({
      line: this.known === null ? null : this.line,
      hue: routeStyle(this.letter).hue,
      handles: this.handles(),
      chosen: this.chosen,
      carried: this.carried !== null,
      begun: this.begun,
      cursor: this.cursor,
    });
  }

  private whereText(places: Places | null, at: Point): string {
    if (places === null) return '';
    const t = this.wishes.words().texts;
    const near = places.pointNear(at, 12 / this.map.view.scale);
    const place = filled(t.at, { place: places.reference(at) });
    const name =
      near === null ? '' : `, ${filled(t.near, { name: places.called(near, this.wishes.words()) })}`;
    return `${place}${name}`;
  }

  private handles(): readonly Point[] {
    const known = this.carried?.base !== undefined || this.dragged !== null ? this.shown : this.known;
    return known === null ? [] : known.ends.slice(0, -1);
  }

  /** What is drawn while something moves. */
  private shown: Understood | null = null;

  private press(at: Point, reach = 12 / this.map.view.scale): void {
    const places = this.wishes.places();
    if (places === null || !places.inside(at)) return;
    const place = placeFor(places, at, reach);
    switch (this.mode) {
      case 'look':
        return;
      case 'start':
      case 'target':
        this.wishes.setEnd(this.mode, place);
        this.setMode('look');
        return;
      case 'point':
        this.wishes.draw('Point', [at]);
        this.setMode('look');
        return;
      case 'line':
      case 'area':
        this.begun = [...this.begun, at];
        this.show();
        return;
      case 'route':
        this.addPoint(place, places);
        return;
    }
  }

  private addPoint(place: PlaceName, places: Places): void {
    if (this.known === null) return;
    const start = this.wishes.start();
    if (start === null) return;
    const i = this.known.legs.length - 1;
    const legs = withPoint(this.known, start, i, place, places);
    const at = placeAt(places, place);
    const ends = [...this.known.ends];
    if (at !== null) ends.splice(i, 0, at);
    this.chosen = i;
    this.settle(legs, ends, i);
  }

  /** Takes a changed route over, and asks whether to stay on a line where that is possible. */
  private settle(legs: Legs, ends: readonly Point[], i: number, wasDragged = false): void {
    const before = this.known!;
    this.known = { ...before, legs: legs as DrawnLeg[], ends, counts: legs.map(() => 1) };
    const start = this.wishes.start()!;
    this.line = [start, ...ends];
    // those of the last place of a drag stay until the task has its own
    if (!wasDragged) this.figure = '';
    this.wishes.commit(legs);
    this.show();
    this.ask(i);
  }

  private ask(i: number | null): void {
    const places = this.wishes.places();
    const start = this.wishes.start();
    const line =
      i === null || this.known === null || places === null || start === null
        ? null
        : lineToFollow(this.known, start, i, places);
    this.question.hidden = line === null;
    if (line === null || i === null || places === null) {
      this.question.replaceChildren();
      return;
    }
    const { make } = this;
    const t = this.wishes.words().texts;
    const yes = make('button', { type: 'button' }, t.stayYes);
    const no = make('button', { type: 'button' }, t.stayNo);
    yes.addEventListener('click', () => {
      if (this.known === null) return;
      const legs = withWay(this.known, i, { technique: 'handrail', line });
      this.known = { ...this.known, legs: legs as DrawnLeg[] };
      this.wishes.commit(legs);
      this.ask(null);
      this.map.element.focus();
    });
    no.addEventListener('click', () => {
      this.ask(null);
      this.map.element.focus();
    });
    const text = filled(t.stay, { line: places.called(line, this.wishes.words()) });
    this.question.replaceChildren(make('span', {}, text), yes, no);
  }

  private settleCarried(): void {
    if (this.carried === null || this.chosen === null) return;
    const { at } = this.carried;
    this.dragTo({ handle: this.chosen, fresh: false }, at, true);
  }

  private dragTo(what: { handle: number; fresh: boolean }, at: Point, done: boolean): void {
    const places = this.wishes.places();
    const start = this.wishes.start();
    if (places === null || start === null || this.known === null) return;
    const base = this.carried?.base ?? this.dragged ?? this.known;
    this.dragged = base;
    const inside = places.inside(at);
    const place = placeFor(places, at, 12 / this.map.view.scale);
    const to = placeAt(places, place) ?? at;
    const i = Math.min(what.handle, base.legs.length - 1);
    const ends = [...base.ends];
    const legs = what.fresh
      ? withPoint(base, start, i, place, places)
      : withMoved(base, start, i, place, places);
    ends.splice(i, what.fresh ? 0 : 1, to);
    this.chosen = i;
    this.shown = { ...base, ends };
    if (done) {
      this.dragged = null;
      this.carried = null;
      if (inside) this.settle(legs, ends, i, true);
      else this.show();
      return;
    }
    this.line = [start, ...ends];
    if (inside) this.probeNumber = this.wishes.probe(legs);
    this.show();
  }

  private hand(): HandWishes {
    return {
      press: (at) => this.press(at),
      movable: () =>
        this.known === null || this.line === null || this.mode === 'line' || this.mode === 'area'
          ? null
          : { handles: this.handles(), line: this.line },
      drag: (what, at, done) => this.dragTo(what, at, done),
      choose: (step) => {
        const count = this.handles().length;
        if (count === 0) return;
        this.settleCarried();
        this.chosen =
          this.chosen === null ? (step > 0 ? 0 : count - 1) : (this.chosen + step + count) % count;
        this.show();
      },
      moves: () => {
        this.map.held = true;
        this.wishes.moves();
      },
      carry: () => {
        if (this.carried !== null) return this.settleCarried();
        const at = this.chosen === null ? undefined : this.known?.ends[this.chosen];
        if (this.known === null || at === undefined) return;
        this.carried = { base: this.known, at };
        this.shown = this.known;
        this.show();
      },
      carrying: () => this.carried !== null,
      carryTo: (at) => {
        if (this.carried === null || this.chosen === null) return;
        this.carried = { ...this.carried, at };
        this.dragTo({ handle: this.chosen, fresh: false }, at, false);
      },
      remove: () => this.removeChosen(),
      end: () => {
        if (this.carried !== null) {
          this.carried = null;
          this.dragged = null;
          this.show();
        } else this.setMode('look');
      },
      cursor: (at) => {
        this.cursor = at;
        this.show();
      },
      whereIsChosen: () => (this.chosen === null ? null : (this.handles()[this.chosen] ?? null)),
    };
  }

  private removeChosen(): void {
    const places = this.wishes.places();
    const start = this.wishes.start();
    if (this.mode === 'line' || this.mode === 'area') {
      this.begun = this.begun.slice(0, -1);
      this.show();
      return;
    }
    if (this.known === null || this.chosen === null || places === null || start === null) return;
    this.removePoint(this.chosen);
  }

  /** Takes the end of leg `i` out of the route. */
  removePoint(i: number): void {
    const places = this.wishes.places();
    const start = this.wishes.start();
    if (this.known === null || places === null || start === null || i >= this.known.legs.length - 1) return;
    const legs = withoutPoint(this.known, start, i, places);
    const ends = this.known.ends.filter((_, k) => k !== i);
    this.chosen = null;
    this.settle(legs, ends, Math.min(i, legs.length - 1));
  }
}

function placeAt(places: Places, place: PlaceName): Point | null {
  if (typeof place === 'string') return null;
  if ('at' in place) return place.at;
  return 'feature' in place ? places.at(place) : null;
}
