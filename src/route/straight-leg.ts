import type { Feature } from '../features/feature.ts';
import { sample } from '../grid/raster.ts';
import { length, lineLength, type Point, pointAlong } from '../math/plane.ts';
import { contourLine } from './contour-leg.ts';
import type { Leg } from './leg.ts';
import { heightAt } from './map-line.ts';
import { inSight, type Planning } from './planning.ts';

/** A straight walk to a place, and the feature that tells the party it is there. */
export function straightLeg(
  technique: 'bearing' | 'timing' | 'sight',
  from: Point,
  to: Point,
  feature?: Feature,
): Leg {
  const confirmed = feature ? { toFeature: feature.id } : {};
  return { technique, from, to, ...confirmed, path: [from, to], ticks: [], fine: false };
}

/** By sight where the end can be made out from here on this day, else on a bearing. */
export function openLeg(planning: Planning, from: Point, to: Point, feature?: Feature): Leg {
  const seen = feature !== undefined && inSight(planning, from, feature);
  return straightLeg(seen ? 'sight' : 'bearing', from, to, feature);
}

/** Least and most rise per metre on which height can be held, tan 5° and tan 25°. */
const LEAST_SLOPE = 0.0875;
const MOST_SLOPE = 0.466;
/** Rise or fall of a leg that still counts as level, metres or share of its length. */
const LEVEL_METRES = 10;
const LEVEL_SHARE = 0.02;
/** Places along it where the slope is read, and the share of them where it must serve. */
const LOOKS = 20;
const ENOUGH = 0.5;

/** Round the slope at one height; null where the ends differ in height, the slope does not serve or the contour leads elsewhere. */
export function roundTheSlope(planning: Planning, from: Point, to: Point, feature?: Feature): Leg | null {
  const { ground } = planning;
  const rise = Math.abs(heightAt(ground, to) - heightAt(ground, from));
  const path = contourLine(ground, from, to);
  if (!path) return null;
  const metres = lineLength(path);
  let serves = 0;
  for (let i = 0; i <= LOOKS; i++) {
    const slope = slopeAt(planning, pointAlong(path, (metres * i) / LOOKS));
    if (slope >= LEAST_SLOPE && slope <= MOST_SLOPE) serves++;
  }
  if (rise > Math.max(LEVEL_METRES, LEVEL_SHARE * metres) || serves < ENOUGH * (LOOKS + 1)) return null;
  const confirmed = feature ? { toFeature: feature.id } : {};
  return { technique: 'contour', from, to, ...confirmed, path, ticks: [], fine: false };
}

function slopeAt(planning: Planning, p: Point): number {
  const { eastward, northward } = planning.ground.relief;
  return length(sample(eastward, p[0], p[1]), sample(northward, p[0], p[1]));
}
