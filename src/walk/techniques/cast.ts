import { GO_BEARING, type Mind } from '../mind.ts';

/** A cast goes no farther than this to a side, metres. Common practice, no source. */
const FURTHEST = 80;
const NEAREST = 15;

/**
 * Casting about for a line that should be here: square to its run on the map, first to one side and back over to the other. Starts
 * one; false when one was made in vain since the line was last underfoot: it is not there.
 */
export function castOn(m: Mind, metres: number): boolean {
  if (m.hasCast) return false;
  m.hasCast = true;
  const out = metres < NEAREST ? NEAREST : metres > FURTHEST ? FURTHEST : metres;
  // no side is likelier than the other
  const side = m.decideBy() < 0.5 ? 1 : -1;
  m.castX = m.belief.x;
  m.castY = m.belief.y;
  m.castEast = m.unitY * side * out;
  m.castNorth = -m.unitX * side * out;
  m.bend = 0;
  m.takeBearing(m.castX + m.castEast, m.castY + m.castNorth);
  return true;
}

/** The next step of a cast, 0 when both sides and the way back to the middle are walked. */
export function cast(m: Mind): number {
  if (m.toGo - m.counted <= 0.005) {
    m.bend++;
    if (m.bend === 1) m.takeBearing(m.castX - m.castEast, m.castY - m.castNorth);
    else if (m.bend === 2) m.takeBearing(m.castX, m.castY);
    else return 0;
  }
  m.goFor(m.toGo - m.counted);
  return GO_BEARING;
}
