import { legsAsWritten } from './as-written.ts';
import type { Desk } from './desk.ts';
import type { Legs } from './drawing-board.ts';
import { withSealed } from './group.ts';
import { shownNames } from './said.ts';
import { withLegs, withoutRoute, withRoute } from './task-routes.ts';
import { filled } from './words.ts';

/** The routes of the task as they are drawn, changed and sealed. */
export class RouteWork {
  private readonly desk: Desk;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  newRoute(): void {
    const straight = [{ technique: 'bearing', to: 'target' } as const];
    const n = (this.desk.task.routes ?? []).length + 1;
    const { task, name } = withRoute(
      this.desk.task,
      filled(this.desk.words.texts.drawnName, { n }),
      straight,
    );
    this.desk.edited = n - 1;
    this.desk.changeTask(task);
    // drawn on at once, before the engine has answered
    const [start, target] = [
      this.desk.placing.startAt(),
      this.desk.places?.at(this.desk.task.target) ?? null,
    ];
    if (start !== null && target !== null) {
      const known = { name, legs: straight, ends: [target], counts: [1] };
      this.desk.board.setRoute(known, this.editedLetter(), [start, target]);
    }
    this.desk.board.setMode('route');
    this.desk.board.map.element.focus();
  }

  editedLetter(): string {
    return String.fromCharCode(65 + ((this.desk.edited ?? 0) % 26));
  }

  editRoute(index: number): void {
    this.desk.edited = index;
    this.desk.view.showRoutes();
    this.desk.board.setMode('route');
    this.desk.board.map.element.scrollIntoView({ block: 'nearest' });
    this.desk.board.map.element.focus({ preventScroll: true });
  }

  copyRoute(index: number): void {
    const route = this.desk.results?.routes[index];
    if (route === undefined) return;
    const shown = shownNames(this.desk.results!, this.desk.places!, this.desk.words)[index] ?? route.name;
    const wanted = filled(this.desk.words.texts.copyName, { name: shown });
    const legs = legsAsWritten(route.legs, route.legs.at(-1)?.toFeature ?? '');
    const { task } = withRoute(this.desk.task, wanted, legs);
    this.desk.edited = (this.desk.task.routes ?? []).length;
    this.desk.changeTask(task);
    this.desk.board.setMode('route');
  }

  removeRoute(index: number): void {
    this.leaveRoute();
    this.desk.changeTask(withoutRoute(this.desk.task, index));
  }

  commitLegs(legs: Legs): void {
    if (this.desk.edited !== null) this.desk.changeTask(withLegs(this.desk.task, this.desk.edited, legs));
  }

  probe(legs: Legs): number {
    const { edited } = this.desk;
    const route = edited === null ? undefined : withLegs(this.desk.task, edited, legs).routes?.[edited];
    return route === undefined ? 0 : this.desk.crew.probe(route);
  }

  leaveRoute(): void {
    this.desk.edited = null;
    this.desk.board.setMode('look');
  }

  seal(who: string, confidence: number): void {
    const { edited } = this.desk;
    if (edited === null) return;
    const sealed = withSealed(this.desk.history.now, edited, who, confidence);
    this.leaveRoute();
    this.desk.change(sealed);
  }
}
