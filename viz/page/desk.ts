import type { WrittenTask } from '../../src/study/schema.ts';
import type { Ground } from '../map/ground.ts';
import type { Board, Mode } from './board.ts';
import type { Crew } from './crew.ts';
import type { FileWork } from './file-work.ts';
import type { Frame } from './frame.ts';
import type { Results } from './messages.ts';
import type { PageView } from './page-view.ts';
import type { PlaceWork } from './place-work.ts';
import type { Places } from './places.ts';
import type { RouteWork } from './route-work.ts';
import type { Figures } from './said.ts';
import type { Sentence } from './sentence.ts';
import type { Store } from './store.ts';
import type { Words } from './words.ts';
import type { History, Work } from './work.ts';

/** What lies before whoever works on the page: the work, what is known of it, and what it is shown on. */
export interface Desk {
  readonly store: Store;
  readonly history: History;
  readonly crew: Crew;
  readonly board: Board;
  readonly sentence: Sentence;
  readonly frame: Frame;
  readonly routes: RouteWork;
  readonly placing: PlaceWork;
  readonly files: FileWork;
  readonly view: PageView;
  readonly words: Words;
  readonly how: Figures;
  /** Number of the newest state of the task. */
  readonly state: number;
  readonly places: Places | null;
  readonly ground: Ground | null;
  readonly groundNumber: number;
  /** The newest figures, for this state or the one before. */
  readonly results: Results | null;
  readonly task: WrittenTask;
  /** Index among the task's routes. */
  edited: number | null;
  /** How far the walks of all attempts are. */
  share: number;
  /** A step in the history of the work. */
  change(part: Partial<Work>): void;
  changeTask(task: WrittenTask): void;
  takeMode(mode: Mode): void;
}
