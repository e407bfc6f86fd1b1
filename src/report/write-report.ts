import type { MappedGround } from '../cost/mapped-ground.ts';
import type { Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import type { Point } from '../math/plane.ts';
import { assumptionsOf, assumptionsOfDay } from '../party/assumptions.ts';
import { reachOf } from '../seeing/recognisable.ts';
import { halfWidth } from '../seeing/sweep.ts';
import { speedModel } from '../speed/models.ts';
import type { Compared } from '../study/compare.ts';
import { lackingKinds } from '../study/prepare-lacking.ts';
import type { Told } from '../study/sample-walks.ts';
import type { Task } from '../study/task.ts';
import type { WayOut } from '../study/way-out.ts';
import { printGridReference } from '../terrain/grid-reference.ts';
import { candidateOf, northsOf } from './candidate.ts';
import { CAUTIONS } from './cautions.ts';
import { type Assumption, REPORT_VERSION, type Report } from './report.ts';
import { reportFeatures, reportGround } from './report-ground.ts';
import { sentenceOf, startName, targetName } from './sentence.ts';
import { clearlySurer, unbeatenOf } from './unbeaten.ts';
import { verdictOf } from './verdict.ts';
import { changesIn, checkIn, leaningIn } from './what-helps.ts';

/** What may be walked beside the comparison. */
export interface BesideCompared {
  readonly told?: ReadonlyMap<string, Told>;
  readonly wayOut?: WayOut | null;
}

/**
 * Puts the document together: everything that is shown, and what it rests on. A page that holds the whole terrain already gives its own
 * `groundFor`, and nothing is packed.
 */
export function writeReport(
  { task, ground, walked, improved, leanings, checks = [], told, wayOut }: Compared & BesideCompared,
  generator: string,
  groundFor: typeof reportGround = reportGround,
): Report {
  const candidates = walked.map((w, i) => {
    const improvement = improved?.get(w.route.id);
    const leansOn = leanings?.get(w.route.id) ?? [];
    return {
      ...candidateOf(w, i, task, ground, { told: told?.get(w.route.id), wayOut }),
      ...(w.alike === undefined || w.alike.length === 0 ? {} : { alike: w.alike }),
      ...(improvement === undefined ? {} : { changes: changesIn(improvement) }),
      ...(leansOn.length === 0 ? {} : { leansOn: leansOn.map(leaningIn) }),
    };
  });
  const shares = new Map(walked.map((w, i) => [candidates[i]!.id, w.range.shares]));
  const surer = clearlySurer((c) => shares.get(c.id)!);
  const unbeaten = unbeatenOf(candidates, surer);
  const { terrain } = ground;
  const ends = [task.start.at, task.target.at];
  const lacking = lackingKinds(ground.features.filter((f) => f.origin !== 'derived'));
  const { shown, box } = groundFor(ground, candidates, ends, lacking);
  const radius = findRadius(task, ground);
  return {
    version: REPORT_VERSION,
    generator,
    task: {
      name: task.name,
      terrain: terrain.name,
      invented: terrain.invented,
      start: { name: startName(task), at: task.start.at, grid: gridOf(task.start.at, terrain.crs) },
      target: {
        name: targetName(task),
        at: task.target.at,
        grid: gridOf(task.target.at, terrain.crs),
        kind: task.target.feature.kind,
        findRadiusMetres: Math.round(radius * 10) / 10,
      },
      trials: task.trials,
      mapDate: terrain.mapDate,
    },
    seed: task.seed,
    conditions: task.conditions,
    party: task.party,
    limits: task.limits,
    sentence: sentenceOf(task),
    verdict: [...verdictOf(candidates, unbeaten, surer), limitsOf(ground, lacking)],
    assumptions: allAssumptions(task, ground),
    cautions: CAUTIONS,
    candidates,
    unbeaten,
    ...(checks.length === 0 ? {} : { worthChecking: checks.map(checkIn) }),
    notes: notesOf(task, ground, lacking, radius),
    ground: shown,
    norths: northsOf(task, ground),
    features: reportFeatures(ground, box),
    attributions: attributionsOf(ground),
  };
}

/** What the data cannot show, in the verdict itself: no figure there is better than this. */
function limitsOf(ground: MappedGround, lacking: readonly FeatureKind[]): string {
  const relief = `relief smaller than ${Math.round(2 * ground.terrain.elevation.cell)} m unseen`;
  const hazards = ground.hazardsMapped
    ? ''
    : '; no cliffs or steep ground mapped, so hazards are not assessed';
  const kinds =
    lacking.length === 0 ? '' : `; the data lack ${lacking.length} kinds of feature, listed below`;
  return `Data: ${relief}${hazards}${kinds}.`;
}

/** Radius within which the target is found, at its own height and place, metres. */
function findRadius(task: Task, ground: MappedGround): number {
  const feature: Feature = task.target.feature;
  const reach = reachOf(feature, ground.cover, task.conditions);
  const { cloudBase } = task.conditions.visibility;
  const elevation = ground.terrain.elevation;
  const c = Math.floor((task.target.at[0] - elevation.west) / elevation.cell);
  const r = Math.floor((elevation.north - task.target.at[1]) / elevation.cell);
  const height = elevation.data[r * elevation.columns + c]!;
  return halfWidth(feature.doubt, cloudBase !== null && height > cloudBase ? reach.above : reach.below);
}

function gridOf(at: Point, crs: string): string | null {
  return printGridReference(at, crs, 10);
}

function allAssumptions(task: Task, ground: MappedGround): Assumption[] {
  const model = speedModel(task.party.speed);
  return [
    ...assumptionsOf(task.party),
    ...assumptionsOfDay(task.conditions),
    {
      name: 'walking speed',
      value: model.name,
      mark: 'published',
      source: `${model.source} ${model.warning}`,
    },
    {
      name: 'detection',
      value: task.seeing === 'definite' ? 'seen within half the sweep width' : 'lateral range curve',
      mark: 'published',
      source: 'Koester et al. 2014, sweep width from the range of detection',
    },
    {
      name: 'climb',
      value: 'heights along the plan, ups and downs of less than 5 m left out',
      mark: 'common practice',
      source: 'common practice, no published source',
    },
    ...overridesOf(task, ground),
  ];
}

/** Doubts about single features that the task states itself. */
function overridesOf(task: Task, ground: MappedGround): Assumption[] {
  return Object.entries(task.overrides).map(([id, given]): Assumption => {
    const feature = ground.byId.get(id);
    const said = Object.entries(given)
      .map(([key, value]) => `${key} ${value}`)
      .join(', ');
    return { name: feature?.name ?? id, value: said, mark: 'given in the task', source: 'the task' };
  });
}

function notesOf(
  task: Task,
  ground: MappedGround,
  lacking: readonly FeatureKind[],
  radius: number,
): string[] {
  const { terrain } = ground;
  const cell = terrain.elevation.cell;
  const notes = [
    ...terrain.notes,
    `Relief smaller than about ${Math.round(2 * cell)} m is not seen by the ${Math.round(cell * 10) / 10} m cells.`,
    'Assumption range: errors of the party × 0.7 to 1.4, odds against mapped things × 0.5 to 2 and sight × 0.8 to 1.25, in nine settings of 200 attempts.',
    'Found routes are chosen with attempts of their own, which are not among those counted here. A change that helps is confirmed on the counted attempts of its route, day by day.',
    'Reasons are those of the first lost attempts, walked again with one kind of error left out at a time.',
  ];
  if (radius < cell) {
    notes.push(
      `The target shows itself within ${Math.round(radius)} m, less than one cell: the ground about it is drawn smoother than it is.`,
    );
  }
  if (!ground.hazardsMapped)
    notes.push('No cliffs or steep ground are mapped here: hazards are not assessed.');
  if (lacking.length > 0) {
    notes.push(`The data hold none of: ${lacking.map((k) => k.replaceAll('-', ' ')).join(', ')}.`);
  }
  if (terrain.invented) notes.push('The ground is invented.');
  if (task.conditions.date === null) notes.push('No date given: bearings are from grid north only.');
  return notes;
}

function attributionsOf(ground: MappedGround): string[] {
  const { terrain } = ground;
  return terrain.attribution === '' ? [] : [terrain.attribution];
}
