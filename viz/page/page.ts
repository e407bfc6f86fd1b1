import type { WrittenTask } from '../../src/study/schema.ts';
import type { Ground } from '../map/ground.ts';
import { maker } from '../theme/element.ts';
import { Board, type Mode } from './board.ts';
import { Crew } from './crew.ts';
import { demoWork } from './demo.ts';
import type { Desk } from './desk.ts';
import { FileWork } from './file-work.ts';
import { describedBy, joinedFolder } from './folder.ts';
import { Frame } from './frame.ts';
import type { FromThinker, GroundFacts, Results } from './messages.ts';
import { PageView } from './page-view.ts';
import { PlaceWork } from './place-work.ts';
import { Places } from './places.ts';
import { showWishedLight, wishedFigures, wishedLanguage, wishedWords } from './reader-wishes.ts';
import { RouteWork } from './route-work.ts';
import type { Figures } from './said.ts';
import { saveFolder, saveTask } from './saving.ts';
import { isSealed } from './sealed.ts';
import { Sentence } from './sentence.ts';
import { remember, remembered, Store } from './store.ts';
import { withRoute } from './task-routes.ts';
import type { Language, Words } from './words.ts';
import { type Folder, History, type Own, type Work } from './work.ts';

/** Opens the page: what was kept on the device, else the demo. */
export async function startPage(): Promise<void> {
  const store = await Store.open();
  new Page(await store.kept(), store);
}

const make = maker(document);

class Page implements Desk {
  readonly routes: RouteWork = new RouteWork(this);
  readonly placing: PlaceWork = new PlaceWork(this);
  readonly files: FileWork = new FileWork(this);
  readonly view: PageView = new PageView(this);
  readonly store: Store;
  readonly history: History;
  readonly crew: Crew;
  readonly board: Board;
  readonly sentence: Sentence;
  readonly frame: Frame;
  words: Words;
  how: Figures;
  state = 0;
  places: Places | null = null;
  ground: Ground | null = null;
  groundNumber = 0;
  private openedWith: { folder: Folder; own: readonly Own[] } | null = null;
  results: Results | null = null;
  /** Index among the task's routes. */
  edited: number | null = null;
  share = 0;

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
      start: () => this.results?.report.task.start.at ?? this.placing.startAt(),
      commit: (legs) => this.routes.commitLegs(legs),
      moves: () => this.crew.handMoves(),
      probe: (legs) => this.routes.probe(legs),
      setEnd: (end, place) => this.placing.setEnd(end, place),
      draw: (shape, points) => this.placing.addOwn(shape, points),
      modeChanged: (mode) => this.modeChanged(mode),
      sealed: () => isSealed(this.history.now),
    });
    this.sentence = new Sentence(make, this.history.now.task, {
      change: (task) => this.changeTask(task),
      place: (end, text) => this.placing.typedEnd(end, text),
      placeText: (end) => this.places?.said(this.task[end]) ?? '',
    });
    this.frame = new Frame(make, this.board.element, this.sentence.element, {
      mode: (mode) => this.takeMode(mode),
      finish: () => this.board.finish(),
      scale: (by) => this.scale(by),
      undo: () => this.step('undo'),
      redo: () => this.step('redo'),
      typed: (text, set) => this.placing.typedPlace(text, set),
      language: (name) => this.setLanguage(name as Language),
      theme: (name) => this.setTheme(name),
      units: (name) => this.setHow('units', name),
      angles: (name) => this.setHow('angles', name),
      newRoute: () => this.routes.newRoute(),
      openFiles: (files) => this.files.openFiles(files),
      saveZip: () => saveFolder(this.files.joined(), this.task),
      saveTask: () => saveTask(this.task),
      saveReport: (size) => this.files.askForReport(size),
      demo: () => this.files.backToDemo(),
      picture: () => this.files.takePicture(null),
    });
    showWishedLight();
    this.showWords();
    this.frame.say('state', this.words.texts.opening);
    addEventListener('keydown', (event) => this.key(event));
    store.keptPicture().then((placed) => placed !== null && this.files.showPicture(placed));
  }

  get task(): WrittenTask {
    return this.history.now.task;
  }

  change(part: Partial<Work>): void {
    this.history.change({ ...this.history.now, ...part });
    this.afterChange();
  }

  changeTask(task: WrittenTask): void {
    this.change({ task });
  }

  private afterChange(): void {
    this.store.keep(this.history.now);
    this.begin();
  }

  begin(): void {
    this.send();
    this.frame.say('problem', '');
    if (this.results === null) this.frame.say('state', this.words.texts.opening);
    this.view.showControls();
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
        this.view.fitted = false;
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

  private heard(message: FromThinker): void {
    switch (message.tells) {
      case 'ground':
        this.takeGround(message.facts);
        return;
      case 'results':
        this.takeResults(message.results);
        return;
      case 'report':
        this.files.takeReport(message.state, message.report);
        return;
      case 'probe':
        this.board.probed(message.probe);
        return;
      case 'progress':
        this.share = message.share;
        this.view.showState();
        return;
      case 'interpreted':
        this.edited = (this.task.routes ?? []).length;
        this.changeTask(withRoute(this.task, message.name, message.legs).task);
        return;
      case 'problem': {
        if (message.state !== this.state && message.state !== -1) return;
        if (this.unproved && message.unreadable === true) {
          this.unproved = false;
          this.files.backToDemo();
          return;
        }
        const t = this.words.texts;
        this.frame.say('problem', `${message.ours ? `${t.fault} ` : ''}${message.message}`);
        if (this.results === null) this.view.showBare();
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
    this.view.showControls();
    // drawn while the first attempts are walked
    if (this.results === null) this.view.showBare();
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
    this.view.showResults();
  }

  takeMode(mode: Mode): void {
    if (mode === 'route' && this.edited === null) this.routes.newRoute();
    else this.board.setMode(mode);
    this.board.map.element.scrollIntoView({ block: 'nearest' });
    this.board.map.element.focus({ preventScroll: true });
  }

  private modeChanged(mode: Mode): void {
    this.frame.mode(mode);
    if (mode === 'look' && this.edited !== null) {
      this.edited = null;
      this.view.showRoutes();
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

  private setLanguage(name: Language): void {
    remember('language', name);
    this.words = wishedWords();
    this.how = wishedFigures();
    this.showWords();
    this.view.showResults();
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
    this.view.showControls();
    this.view.showResults();
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
    this.view.showControls();
  }
}
