import type { Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';

/** A group of kinds that navigation leans on, and what it means when a map shows none of them. */
export interface Need {
  readonly kinds: readonly FeatureKind[];
  readonly name: string;
  /** What is then unknown or cannot be planned. */
  readonly without: string;
}

/*
 * What a map should show for planning to a small target. Common practice, no published source. Landforms are not here: they
 * can be had from the elevation.
 */
export const NEEDS: readonly Need[] = [
  {
    kinds: ['cliff', 'crag', 'steep-ground'],
    name: 'cliffs, crags, steep ground',
    without: 'hazards are not assessed: what is absent here may still be there',
  },
  {
    kinds: ['wall', 'ruined-wall', 'fence'],
    name: 'walls, fences',
    without: 'the surest handrails of open ground are missing',
  },
  {
    kinds: ['stream', 'small-stream'],
    name: 'streams',
    without: 'no stream can be aimed off to or followed',
  },
  { kinds: ['track', 'path'], name: 'tracks, paths', without: 'every route leads over open ground' },
  {
    kinds: ['spring', 'well'],
    name: 'springs, wells',
    without: 'springs are seldom mapped; add those that are known',
  },
  {
    kinds: ['cairn', 'post', 'boundary-stone'],
    name: 'cairns, posts, boundary stones',
    without: 'small marks must be added by hand',
  },
  { kinds: ['boulder'], name: 'boulders', without: 'single boulders must be added by hand' },
  {
    kinds: ['ruin', 'fold', 'building'],
    name: 'ruins, folds, buildings',
    without: 'the best last attack points are missing',
  },
  {
    kinds: ['tarn', 'pool', 'lake'],
    name: 'tarns, pools, lakes',
    without: 'no standing water to take a fix from',
  },
  {
    kinds: ['gate', 'stile', 'bridge'],
    name: 'gates, stiles, bridges',
    without: 'where walls and streams can be crossed is unknown',
  },
  { kinds: ['sinkhole'], name: 'sinkholes', without: 'holes must be added by hand' },
  {
    kinds: ['heather', 'tussock', 'hag', 'marsh', 'grass', 'boulder-field', 'scree'],
    name: 'ground cover',
    without: 'all open ground is walked as short grass',
  },
];

/** The needs that no mapped feature meets, in the order of the list. */
export function lackingNeeds(features: readonly Feature[]): Need[] {
  const shown = new Set(features.filter((f) => f.origin !== 'derived').map((f) => f.kind));
  return NEEDS.filter(({ kinds }) => !kinds.some((kind) => shown.has(kind)));
}

/** The kinds of those needs, for the report. */
export function lackingKinds(features: readonly Feature[]): FeatureKind[] {
  return lackingNeeds(features).flatMap(({ kinds }) => [...kinds]);
}
