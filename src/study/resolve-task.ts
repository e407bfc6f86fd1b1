import type { Conditions } from '../conditions/conditions.ts';
import { doubtOf } from '../features/doubt.ts';
import type { Doubt, Feature } from '../features/feature.ts';
import type { StatedDoubts } from '../features/named-places.ts';
import type { Point } from '../math/plane.ts';
import type { Limits, Party, Skill } from '../party/party.ts';
import { DEFAULT_LIMITS, DEFAULT_PARTY, skillOf } from '../party/presets.ts';
import type { Terrain } from '../terrain/terrain.ts';
import type { TaskDocument } from './read-task.ts';
import { resolveRoutes } from './resolve-routes.ts';
import type { Target, Task } from './task.ts';
import { type Gazetteer, gazetteerOf } from './written-place.ts';

const CLEAR_DAY = { below: 5000, above: 5000, cloudBase: null };

/** What a task is resolved against. */
export interface TaskGround {
  readonly terrain: Terrain;
  readonly features: readonly Feature[];
  /** The line in a file that a drawn route names, in the terrain's CRS. */
  readonly lineOf?: (file: string) => readonly Point[];
}

/** Looks every name of a task up, applies its doubts and fills the defaults in. Throws UserError with line and column. */
export function resolveTask(document: TaskDocument, ground: TaskGround): Task {
  const { value, where } = document;
  const conditions = conditionsOf(value.conditions);
  const age = { mapDate: ground.terrain.mapDate, date: conditions.date };
  const overrides = value.features ?? {};
  const mapped = ground.features.map((feature) => ({
    ...feature,
    doubt: doubtOf(feature.kind, feature.given, ownOf(overrides, feature.id), age),
  }));
  const gazetteer = gazetteerOf(document, ground.terrain, mapped, overrides);
  for (const id of Object.keys(overrides)) gazetteer.feature(['features', id], id);
  const start = gazetteer.endOf(['start'], value.start);
  const target = targetOf(document, gazetteer, ground, conditions);
  const features = target.feature.origin === 'drawn' ? [...mapped, target.feature] : mapped;
  if (start.at[0] === target.at[0] && start.at[1] === target.at[1]) {
    throw document.problem(['target'], { what: 'the target is where the party starts' });
  }
  return {
    name: value.name ?? nameFrom(where),
    version: 1,
    start,
    target,
    conditions,
    party: partyOf(value.party),
    limits: { ...DEFAULT_LIMITS, ...value.limits } satisfies Limits,
    features,
    overrides,
    routes: resolveRoutes(document, gazetteer, ground.lineOf),
    candidates: value.find?.candidates ?? 6,
    trials: value.trials ?? 10_000,
    seed: value.seed ?? 1,
    seeing: value.seeing ?? 'definite',
  };
}

function conditionsOf(written: TaskDocument['value']['conditions'] = {}): Conditions {
  const { visibility, wind } = written;
  return {
    visibility:
      typeof visibility === 'number'
        ? { below: visibility, above: visibility, cloudBase: null }
        : (visibility ?? CLEAR_DAY),
    ground: written.ground ?? 'normal',
    light: written.light ?? 'day',
    wind: { metresPerSecond: wind?.metresPerSecond ?? 0, fromDegrees: wind?.fromDegrees ?? 0 },
    date: written.date ?? null,
  };
}

function partyOf(written: TaskDocument['value']['party'] = {}): Party {
  const skill = written.skill ?? DEFAULT_PARTY.skill;
  const set: Skill = { ...skillOf(skill), ...written.set };
  return { ...DEFAULT_PARTY, ...written, skill, set };
}

function ownOf(overrides: StatedDoubts, id: string): Partial<Doubt> | undefined {
  return Object.hasOwn(overrides, id) ? overrides[id] : undefined;
}

/** The target: a feature of the terrain, or a point in the open that becomes one of the features. */
function targetOf(
  document: TaskDocument,
  gazetteer: Gazetteer,
  ground: TaskGround,
  conditions: Conditions,
): Target {
  const { feature: id, at: _at, lonLat: _lonLat, grid: _grid, kind, name, ...doubt } = document.value.target;
  const place = gazetteer.endOf(['target'], document.value.target);
  if (place.feature !== null) {
    const extra = kind !== undefined ? 'kind' : Object.keys(doubt)[0];
    if (extra === undefined) return { at: place.at, feature: place.feature };
    throw document.problem(['target', extra], {
      what: `${id} is a feature of the terrain, so the task cannot give its ${extra} here`,
      expected: extra === 'kind' ? 'no kind' : `${extra} under features: ${id}:`,
    });
  }
  const open: Feature = {
    id: freeId(ground.features),
    kind: kind ?? 'other',
    ...(name === undefined ? {} : { name }),
    geometry: { type: 'point', at: place.at },
    given: doubt,
    doubt: doubtOf(kind ?? 'other', doubt, {}, { mapDate: null, date: conditions.date }),
    origin: 'drawn',
  };
  return { at: place.at, feature: open };
}

/** A target in the open is called `target`, unless a feature of the terrain has that id. */
function freeId(features: readonly Feature[]): string {
  const taken = new Set(features.map((feature) => feature.id));
  let id = 'target';
  while (taken.has(id)) id += '-point';
  return id;
}

/** `Gauge three` from `tasks/gauge-three.task.yaml`. */
function nameFrom(where: string): string {
  const file = where.split(/[\\/]/).at(-1) ?? where;
  const stem = file.replace(/(\.task)?\.(ya?ml|json)$/i, '').replace(/[-_]+/g, ' ');
  return stem.charAt(0).toUpperCase() + stem.slice(1);
}
