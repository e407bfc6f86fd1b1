import { distance } from '../math/plane.ts';
import {
  attackPoints,
  type Endgame,
  endgamesAlong,
  endgamesFrom,
  type Launch,
  linesByTarget,
} from './endgames.ts';
import { START } from './leg-network.ts';
import { linesNear, type Planning, seenWithin, spotsNear } from './planning.ts';
import type { Stop } from './stops.ts';
import { placeOfSpot } from './stretch-legs.ts';

/** Attack points and far launches looked at. */
const MOST_ATTACK_POINTS = 40;
const MOST_FAR_LAUNCHES = 25;
const FAR_LAUNCH = 1200;
/** Ends of lines that are launches: how many, and how far from the target, metres. */
const MOST_ENDS = 12;
const END_REACH = 700;

/** Every endgame: from the start itself, the attack points, the ends and stops of lines by the target, and from farther off on to such a line. */
export function endgamesAll(planning: Planning, stops: ReadonlyMap<string, readonly Stop[]>): Endgame[] {
  const { start, target } = planning.errand;
  const launches: Launch[] = [
    { id: START, at: start.at, feature: start.feature },
    ...attackPoints(planning, MOST_ATTACK_POINTS).map((f) => ({ id: f.id, at: placeOfSpot(f), feature: f })),
  ];
  const reach = seenWithin(planning, target.feature) + 10;
  const onLine = linesNear(planning, target.at, reach).length > 0;
  if (onLine) {
    const known = new Set(launches.map((l) => l.id));
    const far = spotsNear(planning, target.at, FAR_LAUNCH)
      .filter((f) => !known.has(f.id) && f.id !== target.feature.id && f.doubt.exists >= 0.7)
      .map((f) => ({ f, worth: f.doubt.exists * Math.sqrt(f.doubt.rangeMetres) }))
      .sort((a, b) => b.worth - a.worth || (a.f.id < b.f.id ? -1 : 1))
      .slice(0, MOST_FAR_LAUNCHES);
    for (const { f } of far) launches.push({ id: f.id, at: placeOfSpot(f), feature: f });
  }
  launches.push(...lineEnds(planning, stops, launches));
  const endgames = launches.flatMap((launch) => endgamesFrom(planning, launch));
  for (const line of linesByTarget(planning)) {
    endgames.push(...endgamesAlong(planning, line, stops.get(line.feature.id) ?? []));
  }
  return endgames;
}

/** Ends of lines that lead towards the target: whoever follows one knows where it stands. The nearest ones. */
function lineEnds(
  planning: Planning,
  stops: ReadonlyMap<string, readonly Stop[]>,
  before: readonly Launch[],
): Launch[] {
  const { target } = planning.errand;
  const known = new Set(before.map((l) => l.id));
  const ends = new Map<string, { launch: Launch; away: number }>();
  for (const { feature } of linesNear(planning, target.at, END_REACH)) {
    for (const stop of stops.get(feature.id) ?? []) {
      const away = distance(stop.at, target.at);
      if (!stop.end || away > END_REACH || known.has(stop.id)) continue;
      ends.set(stop.id, { launch: { id: stop.id, at: stop.at, feature: stop.feature }, away });
    }
  }
  return [...ends.values()]
    .sort((a, b) => a.away - b.away || (a.launch.id < b.launch.id ? -1 : 1))
    .slice(0, MOST_ENDS)
    .map(({ launch }) => launch);
}
