import type { Point } from '../../src/math/plane.ts';
import type { Report } from '../../src/report/report.ts';
import type { PlaceName } from '../../src/route/drawn.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import type { Ground } from '../map/ground.ts';
import { maker } from '../theme/element.ts';
import { thousands } from '../theme/words.ts';
import { legsAsWritten } from './as-written.ts';
import { bareReport, middleOf } from './bare-report.ts';
import { Board, type Mode } from './board.ts';
import { Crew } from './crew.ts';
import { demoWork } from './demo.ts';
import { fromStart, type Legs, toTarget } from './drawing-board.ts';
import { describedBy, joinedFolder } from './folder.ts';
import { Frame } from './frame.ts';
import { problemText } from './german-faults.ts';
import { withOpened, withSealed } from './group.ts';
import { groupView } from './group-view.ts';
import { legEditor } from './leg-editor.ts';
import type { FromThinker, GroundFacts, PlacedPicture, Results } from './messages.ts';
import { justDrawn } from './own-features.ts';
import { ownView } from './own-view.ts';
import { pastedPlaces } from './paste.ts';
import { Places } from './places.ts';
import {
  showWishedLight,
  wishedFigures,
  wishedLanguage,
  wishedReading,
  wishedWords,
} from './reader-wishes.ts';
import { foundByFigure, legParts, routeList, type Showing, timeFigure } from './results-view.ts';
import { type Figures, givenText, shownNames, verdictLines } from './said.ts';
import { type ReportSize, saveFolder, saveReport, saveSuggestion, saveTask } from './saving.ts';
import { isSealed, withoutFigures } from './sealed.ts';
import { Sentence } from './sentence.ts';
import { remember, remembered, Store } from './store.ts';
import { readAll, type Taken, taking } from './taking.ts';
import { asWritten, renamed, withLegs, withoutRoute, withRoute } from './task-routes.ts';
import { filled, type Language, type Words } from './words.ts';
import { type Folder, History, type Own, type Work } from './work.ts';

/** Opens the page: what was kept on the device, else the demo. */
export async function startPage(): Promise<void> {
  const store = await Store.open();
  new Page(await store.kept(), store);
}

const make = maker(document);

class Page {
  private readonly store: Store;
  private readonly history: History;
  private readonly crew: Crew;
  private readonly board: Board;
  private readonly sentence: Sentence;
  private readonly frame: Frame;
  private words: Words;
  private how: Figures;
  private state = 0;
  private places: Places | null = null;
  private ground: Ground | null = null;
  private groundNumber = 0;
  private openedWith: { folder: Folder; own: readonly Own[] } | null = null;
  private results: Results | null = null;
  /** Index among the task's routes. */
  private edited: number | null = null;
  private fitted = false;
  private share = 0;
  private below = 0;
  /** The report that has been asked for. */
  private reporting: { readonly size: ReportSize; readonly state: number } | null = null;

  /** Work from another day that has not been read yet: it may be of an older page. */
  private unproved: boolean;

  constructor(kept: Work | null, store: Store) {
    this.unproved = kept !== null;
    this.store = store;
    this.history = new History(kept ?? demoWork(document));
    this.crew = new Crew((message) => this.heard(message));
    this.send();
    this.words = wishedWords();
    this.how = wishedFigures();
    this.board = new Board(make, {
      places: () => this.places,
      words: () => this.words,
      how: () => this.how,
      start: () => this.results?.report.task.start.at ?? this.startAt(),
      commit: (legs) => this.commitLegs(legs),
      probe: (legs) => this.probe(legs),
      setEnd: (end, place) => this.setEnd(end, place),
      draw: (shape, points) => this.addOwn(shape, points),
      modeChanged: (mode) => this.modeChanged(mode),
      sealed: () => isSealed(this.history.now),
    });
    this.sentence = new Sentence(make, this.history.now.task, {
      change: (task) => this.changeTask(task),
      place: (end, text) => this.typedEnd(end, text),
      placeText: (end) => this.places?.said(this.task[end]) ?? '',
    });
    this.frame = new Frame(make, this.board.element, this.sentence.element, {
      mode: (mode) => this.takeMode(mode),
      finish: () => this.board.finish(),
      scale: (by) => this.scale(by),
      undo: () => this.step('undo'),
      redo: () => this.step('redo'),
      typed: (text, set) => this.typedPlace(text, set),
      language: (name) => this.setLanguage(name as Language),
      theme: (name) => this.setTheme(name),
      units: (name) => this.setHow('units', name),
      angles: (name) => this.setHow('angles', name),
      newRoute: () => this.newRoute(),
      openFiles: (files) => this.openFiles(files),
      saveZip: () => saveFolder(this.joined(), this.task),
      saveTask: () => saveTask(this.task),
      saveReport: (size) => this.askForReport(size),
      demo: () => this.backToDemo(),
      picture: () => this.takePicture(null),
    });
    showWishedLight();
    this.showWords();
    this.frame.say('state', this.words.texts.opening);
    addEventListener('keydown', (event) => this.key(event));
    store.keptPicture().then((placed) => placed !== null && this.showPicture(placed));
  }

  private get task(): WrittenTask {
    return this.history.now.task;
  }

  // the work changes

  private change(part: Partial<Work>): void {
    this.history.change({ ...this.history.now, ...part });
    this.afterChange();
  }

  private changeTask(task: WrittenTask): void {
    this.change({ task });
  }

  private afterChange(): void {
    this.store.keep(this.history.now);
    this.begin();
  }

  private begin(): void {
    this.send();
    this.frame.say('problem', '');
    if (this.results === null) this.frame.say('state', this.words.texts.opening);
    this.showControls();
  }

  /** Sends the work as it is to the workers. */
  private send(): void {
    const { folder, own, task } = this.history.now;
    const routes = task.routes ?? [];
    if (this.edited !== null && this.edited >= routes.length) this.edited = null;
    if (this.openedWith === null || this.openedWith.folder !== folder || this.openedWith.own !== own) {
      const another = this.openedWith?.folder !== folder;
      const crs = another ? (describedBy(folder).crs ?? null) : (this.places?.crs ?? null);
      this.openedWith = { folder, own };
      if (another) {
        this.fitted = false;
        this.crew.forgetFound();
      }
      this.crew.open(own.length === 0 || crs === null ? folder : joinedFolder(folder, own, crs));
    }
    this.crew.think(++this.state, { ...task, terrain: '.' });
  }

  private step(way: 'undo' | 'redo'): void {
    if (this.history[way]()) this.afterChange();
  }

  private key(event: KeyboardEvent): void {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
    // text fields have an undo of their own
    if (event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement) return;
    event.preventDefault();
    this.step(event.shiftKey ? 'redo' : 'undo');
  }

  // routes

  private newRoute(): void {
    const straight = [{ technique: 'bearing', to: 'target' } as const];
    const n = (this.task.routes ?? []).length + 1;
    const { task, name } = withRoute(this.task, filled(this.words.texts.drawnName, { n }), straight);
    this.edited = n - 1;
    this.changeTask(task);
    // drawn on at once, before the engine has answered
    const [start, target] = [this.startAt(), this.places?.at(this.task.target) ?? null];
    if (start !== null && target !== null) {
      const known = { name, legs: straight, ends: [target], counts: [1] };
      this.board.setRoute(known, this.editedLetter(), [start, target]);
    }
    this.board.setMode('route');
    this.board.map.element.focus();
  }

  private editedLetter(): string {
    return String.fromCharCode(65 + ((this.edited ?? 0) % 26));
  }

  private editRoute(index: number): void {
    this.edited = index;
    this.showRoutes();
    this.board.setMode('route');
    this.board.map.element.scrollIntoView({ block: 'nearest' });
    this.board.map.element.focus({ preventScroll: true });
  }

  private copyRoute(index: number): void {
    const route = this.results?.routes[index];
    if (route === undefined) return;
    const shown = shownNames(this.results!, this.places!, this.words)[index] ?? route.name;
    const wanted = filled(this.words.texts.copyName, { name: shown });
    const legs = legsAsWritten(route.legs, route.legs.at(-1)?.toFeature ?? '');
    const { task } = withRoute(this.task, wanted, legs);
    this.edited = (this.task.routes ?? []).length;
    this.changeTask(task);
    this.board.setMode('route');
  }

  private removeRoute(index: number): void {
    this.leaveRoute();
    this.changeTask(withoutRoute(this.task, index));
  }

  private commitLegs(legs: Legs): void {
    if (this.edited !== null) this.changeTask(withLegs(this.task, this.edited, legs));
  }

  private probe(legs: Legs): number {
    const { edited } = this;
    const route = edited === null ? undefined : withLegs(this.task, edited, legs).routes?.[edited];
    return route === undefined ? 0 : this.crew.probe(route);
  }

  // places

  private startAt(): Point | null {
    return this.places?.at(this.task.start) ?? null;
  }

  private setEnd(end: 'start' | 'target', place: PlaceName): void {
    if (typeof place === 'string' || 'lonLat' in place || 'grid' in place) return;
    const written = 'feature' in place ? place : { at: [...place.at] as [number, number] };
    this.crew.forgetFound();
    const open =
      end === 'target' && 'at' in written
        ? { ...written, kind: this.task.target.kind ?? ('other' as const) }
        : written;
    this.changeTask({ ...this.task, [end]: open, routes: this.routesFor(end, written) });
  }

  /** Drawn routes led from the new start or to the new target, so that they can be walked at all. */
  private routesFor(
    end: 'start' | 'target',
    place: WrittenTask['start'],
  ): NonNullable<WrittenTask['routes']> {
    const routes = this.task.routes ?? [];
    const at = this.places?.at(place) ?? null;
    const { places, results } = this;
    if (at === null || places === null || results === null) return routes;
    return routes.map((route, i) => {
      const known = results.understood[i];
      if (known === undefined || known.name !== route.name) return route;
      const legs = end === 'start' ? fromStart(known, at, places) : toTarget(known, at, places);
      return { name: route.name, legs: asWritten(legs) };
    });
  }

  private typedEnd(end: 'start' | 'target', text: string): void {
    try {
      const typed = this.places?.typed(text);
      if (typed === undefined) return;
      this.setEnd(end, typed.feature === undefined ? { at: typed.at! } : { feature: typed.feature });
    } catch (error) {
      this.complain(error, text);
      this.sentence.show(this.task, this.words);
    }
  }

  private typedPlace(text: string, set: boolean): void {
    try {
      const typed = this.places?.typed(text);
      const at = typed === undefined ? null : this.places!.at(typed);
      if (at === null) return;
      if (set) {
        if (this.board.kind === 'look') this.takeMode('route');
        this.board.pressAt(at);
      } else this.board.map.lookAt(at);
    } catch (error) {
      this.complain(error, text);
    }
  }

  private complain(error: unknown, text: string): void {
    const why = problemText(error);
    this.frame.say('problem', filled(this.words.texts.noPlace, { text: text.slice(0, 80), why }));
  }

  // what the map lacks

  private addOwn(shape: Own['shape'], points: readonly Point[]): void {
    const drawn = justDrawn(shape, points, this.takenIds());
    this.change({ own: [...this.history.now.own, drawn] });
  }

  private takenIds(): Set<string> {
    return new Set([...(this.places?.facts.features ?? []), ...this.history.now.own].map((f) => f.id));
  }

  private paste(text: string): void {
    if (this.places === null) return;
    try {
      const own = pastedPlaces(text, this.places, this.takenIds());
      this.change({ own: [...this.history.now.own, ...own] });
    } catch (error) {
      this.frame.say('problem', problemText(error));
    }
  }

  // the group

  private seal(who: string, confidence: number): void {
    const { edited } = this;
    if (edited === null) return;
    const sealed = withSealed(this.history.now, edited, who, confidence);
    this.leaveRoute();
    this.change(sealed);
  }

  // files

  private async openFiles(list: readonly File[]): Promise<void> {
    const t = this.words.texts;
    this.frame.say('problem', '');
    try {
      const files = await readAll(list, t.tooLarge);
      const name = list[0]?.name ?? '';
      const taken = await taking(files, name, {
        unknown: filled(t.unknownFile, { name }),
        work: this.history.now,
        joined: this.joined(),
        takenIds: this.takenIds(),
      });
      await this.take(taken, name);
    } catch (error) {
      this.frame.say('problem', `${problemText(error)} ${t.stays}`);
    }
  }

  /** Nothing is taken over before all of it has been read. */
  private async take(taken: Taken, name: string): Promise<void> {
    const t = this.words.texts;
    if ('placed' in taken) this.takePicture(taken.placed);
    else if ('line' in taken) {
      if (this.places === null) return;
      const { readLine } = await import('../../src/route/read-line.ts');
      this.crew.interpret(taken.called, readLine(taken.line, name, this.places.crs));
    } else {
      if (taken.work.task !== undefined) this.leaveRoute();
      if (taken.work.folder !== undefined) this.takePicture(null);
      this.change(taken.work);
      const { added } = taken;
      this.frame.say(
        'state',
        added === null ? filled(t.openedFile, { name }) : filled(t.addedFeatures, { n: added, name }),
      );
    }
  }

  private leaveRoute(): void {
    this.edited = null;
    this.board.setMode('look');
  }

  private takePicture(placed: PlacedPicture | null): void {
    this.store.keepPicture(placed);
    this.showPicture(placed);
  }

  private showPicture(placed: PlacedPicture | null): void {
    const beneath = placed && { url: URL.createObjectURL(placed.picture), bounds: placed.bounds };
    this.board.map.setPicture(beneath);
    this.frame.pictured(placed !== null);
  }

  private joined() {
    const { folder, own } = this.history.now;
    return this.places === null ? folder : joinedFolder(folder, own, this.places.crs);
  }

  /** A report tells more than the page shows, and is worked out for it. */
  private askForReport(size: ReportSize): void {
    const { results, words } = this;
    if (results === null) return;
    if (isSealed(this.history.now)) {
      this.frame.say('problem', words.texts.sealedPart);
      return;
    }
    this.reporting = { size, state: this.state };
    this.share = 0;
    this.crew.report(this.state, { ...this.task, terrain: '.' }, wishedReading());
    this.showState();
  }

  private takeReport(state: number, report: Report): void {
    const asked = this.reporting;
    if (asked === null || asked.state !== state) return;
    this.reporting = null;
    this.share = 0;
    this.showState();
    const name = saveReport(report, this.task, asked.size);
    this.frame.say('state', filled(this.words.texts.reportSaved, { name }));
  }

  private backToDemo(): void {
    this.leaveRoute();
    this.change(demoWork(document));
  }

  // what the workers say

  private heard(message: FromThinker): void {
    switch (message.tells) {
      case 'ground':
        this.takeGround(message.facts);
        return;
      case 'results':
        this.takeResults(message.results);
        return;
      case 'report':
        this.takeReport(message.state, message.report);
        return;
      case 'probe':
        this.board.probed(message.probe);
        return;
      case 'progress':
        this.share = message.share;
        this.showState();
        return;
      case 'interpreted':
        this.edited = (this.task.routes ?? []).length;
        this.changeTask(withRoute(this.task, message.name, message.legs).task);
        return;
      case 'problem': {
        if (message.state !== this.state && message.state !== -1) return;
        if (this.unproved && message.unreadable === true) {
          this.unproved = false;
          this.backToDemo();
          return;
        }
        const t = this.words.texts;
        this.frame.say('problem', `${message.ours ? `${t.fault} ` : ''}${message.message}`);
        if (this.results === null) this.showBare();
      }
    }
  }

  private takeGround(facts: GroundFacts): void {
    const first = this.places === null || this.places.facts.grid.crs !== facts.grid.crs;
    this.places = new Places(facts);
    const { grid, heights } = facts;
    this.ground = {
      heights,
      columns: grid.columns,
      rows: grid.rows,
      cell: grid.cell,
      west: grid.west,
      north: grid.north,
    };
    this.groundNumber++;
    this.frame.offer(this.places.offered());
    this.showControls();
    // drawn while the first attempts are walked
    if (this.results === null) this.showBare();
    // what was drawn could not be joined before the coordinate system was known
    const { own, folder } = this.history.now;
    const known = describedBy(folder).crs !== undefined;
    if (first && own.length > 0 && !known) {
      this.openedWith = { folder, own: [] };
      this.begin();
    }
  }

  private takeResults(results: Results): void {
    if (results.state !== this.state || this.ground === null) return;
    this.unproved = false;
    this.results = results;
    this.share = 0;
    // for whoever looks in from outside: a test, or a console
    Object.assign(document.body, { mistwise: results.report });
    document.body.dataset.ready = results.coarse ? 'coarse' : 'refined';
    this.showResults();
  }

  // what is shown

  /** What may be seen of the results. */
  private get visible(): Results | null {
    return this.results !== null && isSealed(this.history.now) ? withoutFigures(this.results) : this.results;
  }

  private showResults(): void {
    const { visible: results, ground } = this;
    if (results === null || ground === null) return;
    this.board.map.show(results.report, ground, String(this.groundNumber));
    // what has been found since may lie outside; but nothing moves under the hand that draws
    if (!this.fitted) this.board.map.fit();
    else if (!results.coarse && this.edited === null) this.board.map.fitUntouched();
    this.fitted = true;
    const invented = results.report.task.invented ? `, ${this.words.texts.invented}` : '';
    this.frame.title(`${results.report.task.name} · ${results.report.task.terrain}${invented}`);
    const lines = isSealed(this.history.now)
      ? [this.words.texts.sealedVerdict]
      : verdictLines(results, this.places!, this.words);
    this.frame.verdict(lines, this.limitsOfData(results.report));
    this.frame.give(givenText(results.report, this.words, this.how));
    this.showState();
    this.showRoutes();
    // what lies further down the page comes after the figures that decide have been painted
    window.clearTimeout(this.below);
    this.below = window.setTimeout(() => this.showBelow(), 30);
  }

  private showBelow(): void {
    const showing = this.showing();
    if (showing === null) return;
    this.frame.legend(this.board.map.interval, showing.results.report, this.words);
    const waiting = () => make('p', { class: 'note' }, this.words.texts.sealedPart);
    this.frame.fill('time-success', showing.sealed ? waiting() : timeFigure(showing));
    this.frame.fill('found-by', showing.sealed ? waiting() : foundByFigure(showing));
    this.frame.fill('legs', ...legParts(showing));
    document.body.dataset.shown = document.body.dataset.ready;
  }

  /** Before any route could be walked, so that start and target can still be set. */
  private showBare(): void {
    if (this.ground === null || this.places === null) return;
    const at = this.places.at(this.task.start) ?? middleOf(this.ground);
    const to = this.places.at(this.task.target) ?? middleOf(this.ground);
    this.board.map.show(
      bareReport(this.places.facts, this.ground, at, to),
      this.ground,
      String(this.groundNumber),
    );
    if (!this.fitted) this.board.map.fit();
  }

  private showing(): Showing | null {
    const { visible: results, places, words, how } = this;
    if (results === null || places === null) return null;
    const width = this.frame.width();
    return { make, results, places, words, how, width, sealed: isSealed(this.history.now) };
  }

  private limitsOfData(report: Report): string {
    const { cell } = this.words.figures.measures;
    const t = this.words.texts;
    const side = report.ground.terrainCell;
    return `${t.modelled} ${filled(t.relief, { cell: cell(side), twice: cell(2 * side) })}`;
  }

  private showState(): void {
    const { results } = this;
    if (results === null) return;
    const { trials, seed } = { trials: results.report.task.trials, seed: results.report.seed };
    const t = this.words.texts;
    const writing = this.reporting !== null && this.reporting.state === this.state;
    const walked = !results.coarse ? t.refined : this.share > 0 ? t.refining : t.coarse;
    const text = writing ? t.reporting : walked;
    this.frame.say(
      'state',
      filled(text, { trials: thousands(trials), seed, share: Math.round(this.share * 100) }),
    );
  }

  private showRoutes(): void {
    const showing = this.showing();
    if (showing === null) return;
    const { results } = showing;
    const list = routeList(showing, {
      edited: this.edited,
      edit: (i) => this.editRoute(i),
      copy: (i) => this.copyRoute(i),
      remove: (i) => this.removeRoute(i),
    });
    this.frame.fill('routes', list);
    const known = this.edited === null ? null : (results.understood[this.edited] ?? null);
    const candidate = this.edited === null ? undefined : results.report.candidates[this.edited];
    this.board.setRoute(known, this.editedLetter(), candidate?.line ?? null);
    this.showLegs();
    this.showGroup();
  }

  private showLegs(): void {
    const known = this.edited === null ? null : (this.results?.understood[this.edited] ?? null);
    const start = this.results?.report.task.start.at;
    if (known === null || this.places === null || start === undefined) {
      this.frame.fill('editor');
      return;
    }
    this.frame.fill(
      'editor',
      legEditor(make, known, start, this.places, this.words, {
        commit: (legs) => this.commitLegs(legs),
        removePoint: (i) => this.board.removePoint(i),
        rename: (name) => this.edited !== null && this.changeTask(renamed(this.task, this.edited, name)),
        complain: (error, text) => this.complain(error, text),
      }),
    );
  }

  private showGroup(): void {
    this.frame.fill(
      'group',
      ...groupView(make, this.history.now.suggestions, this.results, this.words, {
        canSeal: this.edited !== null,
        seal: (who, confidence) => this.seal(who, confidence),
        open: () => this.change(withOpened(this.history.now)),
        save: saveSuggestion,
      }),
    );
  }

  private showControls(): void {
    this.sentence.show(this.task, this.words);
    this.frame.history(this.history.canUndo, this.history.canRedo);
    if (this.places === null) return;
    this.frame.fill(
      'missing',
      ...ownView(make, this.history.now.own, this.places, this.words, {
        change: (own) => this.change({ own }),
        paste: (text) => this.paste(text),
      }),
    );
    this.showGroup();
  }

  private takeMode(mode: Mode): void {
    if (mode === 'route' && this.edited === null) this.newRoute();
    else this.board.setMode(mode);
    this.board.map.element.scrollIntoView({ block: 'nearest' });
    this.board.map.element.focus({ preventScroll: true });
  }

  private modeChanged(mode: Mode): void {
    this.frame.mode(mode);
    if (mode === 'look' && this.edited !== null) {
      this.edited = null;
      this.showRoutes();
    }
  }

  private scale(by: number): void {
    const { map } = this.board;
    if (by === 0) map.fit();
    else {
      const { west, east, south, north } = map.view.bounds;
      map.scaleBy(by, [(west + east) / 2, (south + north) / 2]);
    }
  }

  // the reader's wishes

  private setLanguage(name: Language): void {
    remember('language', name);
    this.words = wishedWords();
    this.how = wishedFigures();
    this.showWords();
    this.showResults();
  }

  private setTheme(name: string): void {
    remember('theme', name);
    showWishedLight();
  }

  private setHow(what: 'units' | 'angles', value: string): void {
    remember(what, value);
    this.how = wishedFigures();
    this.words = wishedWords();
    this.board.map.setWords(this.words.figures);
    this.showControls();
    this.showResults();
  }

  private showWords(): void {
    document.documentElement.lang = wishedLanguage();
    this.frame.words(this.words, wishedLanguage(), {
      theme: remembered('theme', 'system'),
      units: remembered('units', 'metric'),
      angles: remembered('angles', 'degrees'),
      kept: this.store.works,
    });
    this.board.map.setWords(this.words.figures);
    this.board.show();
    this.showControls();
  }
}
