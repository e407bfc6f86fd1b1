import type { Report } from '../../src/report/report.ts';
import { maker } from '../theme/element.ts';
import { thousands } from '../theme/words.ts';
import { bareReport, middleOf } from './bare-report.ts';
import type { Desk } from './desk.ts';
import { withOpened } from './group.ts';
import { groupView } from './group-view.ts';
import { legEditor } from './leg-editor.ts';
import type { Results } from './messages.ts';
import { ownView } from './own-view.ts';
import { foundByFigure, legParts, routeList, type Showing, timeFigure } from './results-view.ts';
import { givenText, verdictLines } from './said.ts';
import { saveSuggestion } from './saving.ts';
import { isSealed, withoutFigures } from './sealed.ts';
import { renamed } from './task-routes.ts';
import { filled } from './words.ts';

const make = maker(document);

/** Writes on the page what there is to be seen. */
export class PageView {
  private readonly desk: Desk;
  /** The map shows the whole task, or what the reader has chosen since. */
  fitted = false;
  private below = 0;
  private later = 0;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  showResults(): void {
    const { visible: results } = this;
    const { ground } = this.desk;
    if (results === null || ground === null) return;
    const invented = results.report.task.invented ? `, ${this.desk.words.texts.invented}` : '';
    this.desk.frame.title(`${results.report.task.name} · ${results.report.task.terrain}${invented}`);
    const lines = isSealed(this.desk.history.now)
      ? [this.desk.words.texts.sealedVerdict]
      : verdictLines(results, this.desk.places!, this.desk.words);
    this.desk.frame.verdict(lines, this.limitsOfData(results.report));
    this.desk.frame.give(givenText(results.report, this.desk.words, this.desk.how));
    this.showState();
    this.showRoutes();
    window.clearTimeout(this.later);
    window.clearTimeout(this.below);
    // the figures of a route that has just been set down come first: its line lies drawn already
    if (results.coarse && this.desk.edited !== null) {
      this.later = window.setTimeout(() => this.showMap(), 20);
    } else this.showMap();
    // what lies further down the page comes after the figures that decide have been painted
    this.below = window.setTimeout(() => this.showBelow(), 30);
  }

  private showMap(): void {
    const { visible: results } = this;
    const { ground, groundNumber, board, edited } = this.desk;
    if (results === null || ground === null) return;
    board.map.show(results.report, ground, String(groundNumber));
    // what has been found since may lie outside; but nothing moves under the hand that draws
    if (!this.fitted) board.map.fit();
    else if (!results.coarse && edited === null) board.map.fitUntouched();
    this.fitted = true;
  }

  showBelow(): void {
    const showing = this.showing();
    if (showing === null) return;
    this.desk.frame.legend(this.desk.board.map.interval, showing.results.report, this.desk.words);
    const waiting = () => make('p', { class: 'note' }, this.desk.words.texts.sealedPart);
    this.desk.frame.fill('time-success', showing.sealed ? waiting() : timeFigure(showing));
    this.desk.frame.fill('found-by', showing.sealed ? waiting() : foundByFigure(showing));
    this.desk.frame.fill('legs', ...legParts(showing));
    document.body.dataset.shown = document.body.dataset.ready;
  }

  /** Before any route could be walked, so that start and target can still be set. */
  showBare(): void {
    if (this.desk.ground === null || this.desk.places === null) return;
    const at = this.desk.places.at(this.desk.task.start) ?? middleOf(this.desk.ground);
    const to = this.desk.places.at(this.desk.task.target) ?? middleOf(this.desk.ground);
    this.desk.board.map.show(
      bareReport(this.desk.places.facts, this.desk.ground, at, to),
      this.desk.ground,
      String(this.desk.groundNumber),
    );
    if (!this.fitted) this.desk.board.map.fit();
  }

  showing(): Showing | null {
    const { visible: results } = this;
    const { places, words, how } = this.desk;
    if (results === null || places === null) return null;
    const width = this.desk.frame.width();
    return { make, results, places, words, how, width, sealed: isSealed(this.desk.history.now) };
  }

  limitsOfData(report: Report): string {
    const { cell } = this.desk.words.figures.measures;
    const t = this.desk.words.texts;
    const side = report.ground.terrainCell;
    return `${t.modelled} ${filled(t.relief, { cell: cell(side), twice: cell(2 * side) })}`;
  }

  showState(): void {
    const { results } = this.desk;
    if (results === null) return;
    const { trials, seed } = { trials: results.report.task.trials, seed: results.report.seed };
    const t = this.desk.words.texts;
    const writing = this.desk.files.reporting !== null && this.desk.files.reporting.state === this.desk.state;
    const walked = !results.coarse ? t.refined : this.desk.share > 0 ? t.refining : t.coarse;
    const text = writing ? t.reporting : walked;
    this.desk.frame.say(
      'state',
      filled(text, { trials: thousands(trials), seed, share: Math.round(this.desk.share * 100) }),
    );
  }

  showRoutes(): void {
    const showing = this.showing();
    if (showing === null) return;
    const { results } = showing;
    const list = routeList(showing, {
      edited: this.desk.edited,
      edit: (i) => this.desk.routes.editRoute(i),
      copy: (i) => this.desk.routes.copyRoute(i),
      remove: (i) => this.desk.routes.removeRoute(i),
    });
    this.desk.frame.fill('routes', list);
    const known = this.desk.edited === null ? null : (results.understood[this.desk.edited] ?? null);
    const candidate = this.desk.edited === null ? undefined : results.report.candidates[this.desk.edited];
    this.desk.board.setRoute(known, this.desk.routes.editedLetter(), candidate?.line ?? null);
    this.showLegs();
    this.showGroup();
  }

  showLegs(): void {
    const known =
      this.desk.edited === null ? null : (this.desk.results?.understood[this.desk.edited] ?? null);
    const start = this.desk.results?.report.task.start.at;
    if (known === null || this.desk.places === null || start === undefined) {
      this.desk.frame.fill('editor');
      return;
    }
    this.desk.frame.fill(
      'editor',
      legEditor(make, known, start, this.desk.places, this.desk.words, {
        commit: (legs) => this.desk.routes.commitLegs(legs),
        removePoint: (i) => this.desk.board.removePoint(i),
        rename: (name) =>
          this.desk.edited !== null && this.desk.changeTask(renamed(this.desk.task, this.desk.edited, name)),
        complain: (error, text) => this.desk.placing.complain(error, text),
      }),
    );
  }

  showGroup(): void {
    this.desk.frame.fill(
      'group',
      ...groupView(make, this.desk.history.now.suggestions, this.desk.results, this.desk.words, {
        canSeal: this.desk.edited !== null,
        seal: (who, confidence) => this.desk.routes.seal(who, confidence),
        open: () => this.desk.change(withOpened(this.desk.history.now)),
        save: saveSuggestion,
      }),
    );
  }

  showControls(): void {
    this.desk.sentence.show(this.desk.task, this.desk.words);
    this.desk.frame.history(this.desk.history.canUndo, this.desk.history.canRedo);
    if (this.desk.places === null) return;
    this.desk.frame.fill(
      'missing',
      ...ownView(make, this.desk.history.now.own, this.desk.places, this.desk.words, {
        change: (own) => this.desk.change({ own }),
        paste: (text) => this.desk.placing.paste(text),
      }),
    );
    this.showGroup();
  }

  /** What may be seen of the results. */
  get visible(): Results | null {
    return this.desk.results !== null && isSealed(this.desk.history.now)
      ? withoutFigures(this.desk.results)
      : this.desk.results;
  }
}
