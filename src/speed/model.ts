/** A published travel-time model. One file each, one list: `speed/models.ts`. */
export interface SpeedModel {
  readonly name: string;
  readonly source: string;
  /** What a user should know before trusting it. */
  readonly warning: string;
  /** Whether the source gives a curve of its own for walking off the path; if not, `onPath` changes nothing here. */
  readonly hasOffPath: boolean;
  /**
   * Whether the curve is one that people zig-zag under beyond its critical gradient. False for a rule whose descent jumps: a zig-zag
   * would only make use of the jump.
   */
  readonly zigZags: boolean;
  /** Metres per second along the map for a signed gradient (rise/run, + up), on or off a path. Uses `math/portable` only. */
  metresPerSecond(gradient: number, onPath: boolean): number;
  /** Least seconds per map metre over all gradients, on path: the bound of the search heuristic. */
  readonly bestPace: number;
}
