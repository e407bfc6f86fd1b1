import type { MappedGround } from '../cost/mapped-ground.ts';
import { isPlain, PLAIN_READING } from '../door/reading.ts';
import type { Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import type { Point } from '../math/plane.ts';
import { assumptionsOf, assumptionsOfDay } from '../party/assumptions.ts';
import { routeWords } from '../route/words.ts';
import { reachOf } from '../seeing/recognisable.ts';
import { halfWidth } from '../seeing/sweep.ts';
import { speedModel } from '../speed/models.ts';
import type { Compared } from '../study/compare.ts';
import { lackingKinds } from '../study/prepare-lacking.ts';
import type { Task } from '../study/task.ts';
import { printGridReference } from '../terrain/grid-reference.ts';
import { candidateOf, northsOf } from './candidate.ts';
import { type Assumption, REPORT_VERSION, type Report } from './report.ts';
import { reportFeatures, reportGround } from './report-ground.ts';
import { sentenceOf, startName, targetName } from './sentence.ts';
import { clearlySurer, unbeatenOf } from './unbeaten.ts';
import { verdictOf } from './verdict.ts';
import { changesIn, checkIn, leaningIn } from './what-helps.ts';
import { type ReportSentences, reportSentences } from './words.ts';

/**
 * Puts the document together: everything that is shown, and what it rests on. A page that holds the whole terrain already gives its own
 * `groundFor`, and nothing is packed.
 */
export function writeReport(
  { task, ground, walked, improved, leanings, checks = [], told, wayOut }: Compared,
  generator: string,
  groundFor: typeof reportGround = reportGround,
): Report {
  const reading = task.reading ?? PLAIN_READING;
  const words = routeWords(reading);
  const say = reportSentences(reading);
  const candidates = walked.map((w, i) => {
    const improvement = improved?.get(w.route.id);
    const leansOn = leanings?.get(w.route.id) ?? [];
    return {
      ...candidateOf(w, i, task, ground, { told: told?.get(w.route.id), wayOut }),
      ...(w.alike === undefined || w.alike.length === 0 ? {} : { alike: w.alike }),
      ...(improvement === undefined ? {} : { changes: changesIn(improvement) }),
      ...(leansOn.length === 0 ? {} : { leansOn: leansOn.map((l) => leaningIn(l, words)) }),
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
    ...(isPlain(reading) ? {} : { reading }),
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
    verdict: [
      ...verdictOf(candidates, unbeaten, surer, say),
      say.limits(2 * terrain.elevation.cell, ground.hazardsMapped, lacking.length),
    ],
    assumptions: allAssumptions(task, ground, say),
    cautions: say.cautions,
    candidates,
    unbeaten,
    ...(checks.length === 0 ? {} : { worthChecking: checks.map((c) => checkIn(c, words)) }),
    notes: notesOf(task, ground, lacking, radius, say),
    ground: shown,
    norths: northsOf(task, ground),
    features: reportFeatures(ground, box, words),
    attributions: attributionsOf(ground),
  };
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

function allAssumptions(
  task: Task,
  ground: MappedGround,
  { assumptions: say }: ReportSentences,
): Assumption[] {
  const { language } = task.reading ?? PLAIN_READING;
  const model = speedModel(task.party.speed);
  return [
    ...assumptionsOf(task.party, task.reading),
    ...assumptionsOfDay(task.conditions, language),
    {
      name: say.speed,
      value: model.name,
      mark: 'published',
      source: say.sourced(model),
    },
    {
      name: say.detection,
      value: task.seeing === 'definite' ? say.definite : say.lateral,
      mark: 'published',
      source: say.detectionSource,
    },
    { name: say.climb, value: say.climbValue, mark: 'common practice', source: say.practice },
    ...overridesOf(task, ground, say),
  ];
}

/** Doubts about single features that the task states itself. */
function overridesOf(task: Task, ground: MappedGround, say: ReportSentences['assumptions']): Assumption[] {
  return Object.entries(task.overrides).map(([id, given]): Assumption => {
    const feature = ground.byId.get(id);
    const said = Object.entries(given)
      .map(([key, value]) => `${say.doubt(key)} ${value}`)
      .join(', ');
    const name = (feature && routeWords(task.reading).ownName(feature)) ?? id;
    return { name, value: said, mark: 'given in the task', source: say.theTask };
  });
}

function notesOf(
  task: Task,
  ground: MappedGround,
  lacking: readonly FeatureKind[],
  radius: number,
  { notes: say }: ReportSentences,
): string[] {
  const { terrain } = ground;
  const { cell } = terrain.elevation;
  return [
    ...terrain.notes.map(say.ofTerrain),
    say.relief(2 * cell, cell),
    ...say.always,
    ...(radius < cell ? [say.smallTarget(radius)] : []),
    ...(ground.hazardsMapped ? [] : [say.noHazards]),
    ...(lacking.length > 0 ? [say.lacking(lacking)] : []),
    ...(terrain.invented ? [say.invented] : []),
    ...(task.conditions.date === null ? [say.noDate] : []),
  ];
}

function attributionsOf(ground: MappedGround): string[] {
  const { terrain } = ground;
  return terrain.attribution === '' ? [] : [terrain.attribution];
}
