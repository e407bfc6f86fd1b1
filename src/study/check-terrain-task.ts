import { daylight } from '../conditions/daylight.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import { UserError } from '../door/user-error.ts';
import type { Feature } from '../features/feature.ts';
import { lineFamily } from '../features/line-kinds.ts';
import { lookalikesOf } from '../features/lookalikes.ts';
import { cellAt, sample } from '../grid/raster.ts';
import { distance, type Point } from '../math/plane.ts';
import type { Route } from '../route/leg.ts';
import { awayFrom } from '../route/map-line.ts';
import type { Locate } from '../route/place.ts';
import { resolveRoute } from '../route/resolve.ts';
import { nameOf } from '../route/says.ts';
import { isMark, reachOf } from '../seeing/recognisable.ts';
import { sweepWidth } from '../seeing/sweep.ts';
import { toLonLat } from '../terrain/projection.ts';
import { counted, type Finding, someOf } from './check-finding.ts';
import type { Task } from './task.ts';

/** A like thing nearer than this may be taken for the target; further from it a party knows better. Common practice. */
const ALIKE_WITHIN = 200;
/** Where the last sure point should lie, metres from the target. Common practice. */
const ATTACK_LEAST = 30;
const ATTACK_MOST = 300;
/** A last leg on a bearing longer than this seldom ends within sight of a small thing. Common practice. */
const LAST_LEG = 300;
/** Fastest anybody goes over a task, metres per second. */
const FASTEST = 2.5;
/** Room round start and target below which the edge of the data cuts ways round off, metres. */
const ROOM = 300;

/** What is wrong or doubtful in a task on its ground. The task is resolved already: its names are known. */
export function checkTask(task: Task, ground: MappedGround, locate?: Locate): Finding[] {
  return [
    ...drawnRoutes(task, ground, locate),
    ...targetSize(task, ground),
    ...targetLookalikes(task),
    ...targetDoubt(task),
    ...attackPoints(task, ground),
    ...hazards(task, ground),
    ...edge(task, ground),
    ...timeAndLight(task, ground),
  ];
}

function finding(weight: Finding['weight'], says: string, rest: Partial<Finding> = {}): Finding {
  return { weight, about: 'task', says, ...rest };
}

function drawnRoutes(task: Task, ground: MappedGround, locate: Locate | undefined): Finding[] {
  const findings: Finding[] = [];
  task.routes.forEach((drawn, i) => {
    let route: Route;
    try {
      route = resolveRoute(drawn, task, ground, `drawn-${i + 1}`, locate);
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      findings.push(finding('wrong', error.message));
      return;
    }
    const last = route.legs[route.legs.length - 1]!;
    const metres = distance(last.from, last.to);
    if (last.technique === 'bearing' && metres > LAST_LEG) {
      const says = `route "${drawn.name}" ends with ${Math.round(metres)} m on a bearing: more than ${LAST_LEG} m to a small target`;
      findings.push(finding('known', says, { at: last.from }));
    }
  });
  return findings;
}

/** How wide the target can be found, against the cell that all ground about it is known by. */
function targetSize({ target, conditions }: Task, ground: MappedGround): Finding[] {
  const { cell } = ground.terrain.elevation;
  const reach = reachOf(target.feature, ground.cover, conditions);
  const base = conditions.visibility.cloudBase;
  const height = sample(ground.terrain.elevation, target.at[0], target.at[1]);
  const range = base !== null && height > base ? reach.above : reach.below;
  const wide = sweepWidth(target.feature.doubt, range);
  const name = nameOf(target.feature);
  const findings = [
    finding(
      'known',
      `${name} is found when the party comes within ${metresText(wide / 2)} of it on this day`,
    ),
  ];
  if (cell > 2 * wide) {
    const says = `the ground is known in cells of ${Math.round(cell)} m and ${name} is found within ${metresText(wide / 2)}: the figures show the workflow, not the last ${Math.round(2 * cell)} m`;
    findings.push(finding('doubtful', says, { at: target.at }));
  }
  return findings;
}

const metresText = (m: number) => `${m < 10 ? Math.round(m * 10) / 10 : Math.round(m)} m`;

function targetLookalikes({ target, start, features }: Task): Finding[] {
  const alike = lookalikesOf(target.feature, features, ALIKE_WITHIN, target.at);
  const findings: Finding[] = [];
  if (alike.length > 0) {
    const told = alike.map(
      ({ feature, metres }) => `${nameOf(feature)} (${feature.id}, ${Math.round(metres)} m)`,
    );
    const says = `${counted(alike.length, 'thing')} within ${ALIKE_WITHIN} m could be taken for ${nameOf(target.feature)}: ${someOf(told)}`;
    findings.push(finding('doubtful', says, { ids: alike.map((a) => a.feature.id), at: target.at }));
  }
  const atStart = start.feature === null ? [] : lookalikesOf(start.feature, features, ALIKE_WITHIN, start.at);
  if (atStart.length > 0) {
    const says = `the start, ${nameOf(start.feature!)}, has a lookalike within ${ALIKE_WITHIN} m: ${someOf(atStart.map((a) => a.feature.id))}; make sure the party stands at the right one`;
    findings.push(finding('known', says, { ids: atStart.map((a) => a.feature.id), at: start.at }));
  }
  return findings;
}

function targetDoubt({ target }: Task): Finding[] {
  const { exists, positionMetres } = target.feature.doubt;
  const name = nameOf(target.feature);
  const findings: Finding[] = [];
  if (exists < 0.7) {
    const says = `${name} is there on ${Math.round(100 * exists)} of 100 such days only: no route can do better`;
    findings.push(finding('doubtful', says, { ids: [target.feature.id] }));
  }
  if (positionMetres > 25) {
    const says = `the place of ${name} is known to ${Math.round(positionMetres)} m only`;
    findings.push(finding('doubtful', says, { ids: [target.feature.id] }));
  }
  return findings;
}

/** What stands near enough to the target to set off from, and is sure. */
function attackPoints({ target }: Task, ground: MappedGround): Finding[] {
  const near: { feature: Feature; metres: number }[] = [];
  for (const feature of ground.features) {
    if (feature.id === target.feature.id || !isMark(feature)) continue;
    const metres = awayFrom(feature, target.at);
    if (metres <= ATTACK_MOST) near.push({ feature, metres });
  }
  const points = near.filter((n) => n.feature.geometry.type !== 'line' && n.metres >= ATTACK_LEAST);
  const lines = near.filter((n) => lineFamily(n.feature.kind) !== null && n.feature.geometry.type === 'line');
  const findings: Finding[] = [];
  if (points.length === 0) {
    const says = `no sure point between ${ATTACK_LEAST} and ${ATTACK_MOST} m from ${nameOf(target.feature)} to set off from: the last leg will be long, or add what is known there`;
    findings.push(finding('doubtful', says, { at: target.at }));
  }
  if (lines.length === 0) {
    const says = `no line within ${ATTACK_MOST} m of ${nameOf(target.feature)} to aim off to or to stop an overrun`;
    findings.push(finding('known', says, { at: target.at }));
  }
  return findings;
}

function hazards({ start, target }: Task, ground: MappedGround): Finding[] {
  if (!ground.hazardsMapped) {
    return [finding('doubtful', 'hazards not assessed: the map shows no cliff and no steep ground')];
  }
  return [start, target].flatMap(({ at }, i) => {
    const cell = cellAt(ground.hazard, at[0], at[1]);
    const metres = cell < 0 ? Number.POSITIVE_INFINITY : ground.hazard.data[cell]!;
    if (metres > 30) return [];
    const says = `the ${i === 0 ? 'start' : 'target'} lies within ${Math.round(metres)} m of a mapped drop or steep ground`;
    return [finding('doubtful', says, { at })];
  });
}

function edge({ start, target }: Task, ground: MappedGround): Finding[] {
  const { west, north, cell, columns, rows } = ground.terrain.elevation;
  const room = ([x, y]: Point) =>
    Math.min(x - west, west + columns * cell - x, north - y, y - (north - rows * cell));
  const least = Math.min(room(start.at), room(target.at));
  if (least >= ROOM) return [];
  const says = `start or target lies ${Math.round(least)} m from the edge of the elevation: ways round outside it are unknown`;
  return [finding('known', says)];
}

function timeAndLight({ conditions, limits, start, target }: Task, ground: MappedGround): Finding[] {
  const findings: Finding[] = [];
  const metres = distance(start.at, target.at);
  if (limits.minutes !== null && metres / FASTEST > limits.minutes * 60) {
    const says = `${Math.round(metres)} m as the crow flies cannot be walked in ${limits.minutes} minutes`;
    findings.push(finding('wrong', says));
  }
  if (conditions.date === null) {
    findings.push(finding('known', 'no date: only grid bearings are given, and nothing is said of daylight'));
    return findings;
  }
  const { hours } = daylight(toLonLat(ground.terrain.crs, start.at), conditions.date);
  if (conditions.light === 'day' && hours < 7) {
    const says = `${Math.round(hours * 10) / 10} hours of daylight on ${conditions.date}: little room for a late start`;
    findings.push(finding('known', says));
  }
  return findings;
}
