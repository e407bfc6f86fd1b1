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

/** Every endgame: from the start itself, the attack points, the stops of lines by the target, and from farther off on to such a line. */
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
  const endgames = launches.flatMap((launch) => endgamesFrom(planning, launch));
  for (const line of linesByTarget(planning)) {
    endgames.push(...endgamesAlong(planning, line, stops.get(line.feature.id) ?? []));
  }
  return endgames;
}
