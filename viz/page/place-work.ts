import type { Point } from '../../src/math/plane.ts';
import type { PlaceName } from '../../src/route/drawn.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import type { Desk } from './desk.ts';
import { fromStart, toTarget } from './drawing-board.ts';
import { problemText } from './german-faults.ts';
import { justDrawn } from './own-features.ts';
import { pastedPlaces } from './paste.ts';
import { asWritten } from './task-routes.ts';
import { filled } from './words.ts';
import type { Own } from './work.ts';

/** Start, target, and what the map lacks. */
export class PlaceWork {
  private readonly desk: Desk;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  startAt(): Point | null {
    return this.desk.places?.at(this.desk.task.start) ?? null;
  }

  setEnd(end: 'start' | 'target', place: PlaceName): void {
    if (typeof place === 'string' || 'lonLat' in place || 'grid' in place) return;
    const written = 'feature' in place ? place : { at: [...place.at] as [number, number] };
    this.desk.crew.forgetFound();
    const open =
      end === 'target' && 'at' in written
        ? { ...written, kind: this.desk.task.target.kind ?? ('other' as const) }
        : written;
    this.desk.changeTask({ ...this.desk.task, [end]: open, routes: this.routesFor(end, written) });
  }

  /** Drawn routes led from the new start or to the new target, so that they can be walked at all. */
  routesFor(end: 'start' | 'target', place: WrittenTask['start']): NonNullable<WrittenTask['routes']> {
    const routes = this.desk.task.routes ?? [];
    const at = this.desk.places?.at(place) ?? null;
    const { places, results } = this.desk;
    if (at === null || places === null || results === null) return routes;
    return routes.map((route, i) => {
      const known = results.understood[i];
      if (known === undefined || known.name !== route.name) return route;
      const legs = end === 'start' ? fromStart(known, at, places) : toTarget(known, at, places);
      return { name: route.name, legs: asWritten(legs) };
    });
  }

  typedEnd(end: 'start' | 'target', text: string): void {
    try {
      const typed = this.desk.places?.typed(text);
      if (typed === undefined) return;
      this.setEnd(end, typed.feature === undefined ? { at: typed.at! } : { feature: typed.feature });
    } catch (error) {
      this.complain(error, text);
      this.desk.sentence.show(this.desk.task, this.desk.words);
    }
  }

  typedPlace(text: string, set: boolean): void {
    try {
      const typed = this.desk.places?.typed(text);
      const at = typed === undefined ? null : this.desk.places!.at(typed);
      if (at === null) return;
      if (set) {
        if (this.desk.board.kind === 'look') this.desk.takeMode('route');
        this.desk.board.pressAt(at);
      } else this.desk.board.map.lookAt(at);
    } catch (error) {
      this.complain(error, text);
    }
  }

  complain(error: unknown, text: string): void {
    const why = problemText(error);
    this.desk.frame.say('problem', filled(this.desk.words.texts.noPlace, { text: text.slice(0, 80), why }));
  }

  addOwn(shape: Own['shape'], points: readonly Point[]): void {
    const drawn = justDrawn(shape, points, this.takenIds());
    this.desk.change({ own: [...this.desk.history.now.own, drawn] });
  }

  takenIds(): Set<string> {
    return new Set(
      [...(this.desk.places?.facts.features ?? []), ...this.desk.history.now.own].map((f) => f.id),
    );
  }

  paste(text: string): void {
    if (this.desk.places === null) return;
    try {
      const own = pastedPlaces(text, this.desk.places, this.takenIds());
      this.desk.change({ own: [...this.desk.history.now.own, ...own] });
    } catch (error) {
      this.desk.frame.say('problem', problemText(error));
    }
  }
}
