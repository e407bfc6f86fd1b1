import { areaOf } from './areas.ts';
import type { Doubt, Geometry } from './feature.ts';
import type { Classified } from './gather.ts';
import type { FeatureKind } from './kinds.ts';

/** Tags of one OpenStreetMap element. */
export type Tags = Readonly<Record<string, string>>;

type Rule = readonly [key: string, values: string, kind: FeatureKind, shape?: Geometry['type']];

/*
 * Tags to kinds, first match wins; keys and values as on the OpenStreetMap wiki's page "Map features".
 * Which kind a tag comes down to is common practice, no published source. `*` is any value but "no".
 */
const RULES: readonly Rule[] = [
  ['historic', 'boundary_stone milestone', 'boundary-stone'],
  ['boundary', 'marker', 'boundary-stone'],
  ['historic', 'ruins', 'ruin'],
  ['ruins', '*', 'ruin'],
  ['building', 'ruins collapsed', 'ruin'],
  ['man_made', 'cairn', 'cairn'],
  ['man_made', 'sheepfold', 'fold'],
  ['historic', 'sheepfold', 'fold'],
  ['building', 'sheepfold', 'fold'],
  ['natural', 'spring hot_spring', 'spring'],
  ['man_made', 'water_well spring_box', 'well'],
  ['natural', 'sinkhole', 'sinkhole'],
  ['natural', 'saddle', 'col'],
  ['mountain_pass', 'yes', 'col', 'point'],
  ['natural', 'peak hill', 'knoll', 'point'],
  ['natural', 'stone rock', 'boulder'],
  ['historic', 'standing_stone', 'boulder'],
  ['natural', 'tree', 'tree', 'point'],
  ['natural', 'cliff', 'crag', 'point'],
  ['natural', 'cliff', 'cliff'],
  ['natural', 'ridge arete', 'ridge', 'line'],
  ['natural', 'earth_bank', 'break-of-slope', 'line'],
  ['man_made', 'embankment', 'break-of-slope', 'line'],
  ['embankment', 'yes', 'break-of-slope', 'line'],
  ['barrier', 'gate lift_gate swing_gate kissing_gate hampshire_gate cattle_grid', 'gate', 'point'],
  ['barrier', 'stile', 'stile', 'point'],
  ['barrier', 'wall city_wall retaining_wall', 'wall', 'line'],
  ['barrier', 'wall city_wall retaining_wall', 'wall', 'area'],
  ['barrier', 'fence hedge', 'fence', 'line'],
  ['barrier', 'fence hedge', 'fence', 'area'],
  ['man_made', 'snow_fence avalanche_protection', 'fence', 'line'],
  ['man_made', 'bridge', 'bridge'],
  ['information', 'guidepost route_marker', 'post', 'point'],
  ['man_made', 'survey_point', 'post', 'point'],
  ['power', 'pole tower', 'post', 'point'],
  ['aerialway', 'pylon', 'post', 'point'],
  ['ford', '*', 'crossing', 'point'],
  ['waterway', 'river stream canal tidal_channel', 'stream', 'line'],
  ['waterway', 'drain ditch', 'small-stream', 'line'],
  ['natural', 'water', 'lake', 'area'],
  ['landuse', 'reservoir', 'lake', 'area'],
  ['waterway', 'riverbank', 'lake', 'area'],
  ['highway', 'path footway bridleway cycleway steps via_ferrata', 'path', 'line'],
  [
    'highway',
    'track service unclassified residential living_street pedestrian road tertiary tertiary_link secondary secondary_link primary primary_link trunk trunk_link motorway motorway_link',
    'track',
    'line',
  ],
  ['natural', 'wetland mud', 'marsh', 'area'],
  ['natural', 'wood', 'forest', 'area'],
  ['landuse', 'forest', 'forest', 'area'],
  ['natural', 'heath moor', 'heather', 'area'],
  ['natural', 'scree shingle', 'scree', 'area'],
  ['natural', 'blockfield', 'boulder-field', 'area'],
  ['landuse', 'quarry', 'steep-ground', 'area'],
  ['landuse', 'military', 'out-of-bounds', 'area'],
  ['natural', 'grassland fell', 'grass', 'area'],
  ['landuse', 'meadow grass farmland', 'grass', 'area'],
  ['tourism', 'alpine_hut wilderness_hut', 'building'],
  ['amenity', 'shelter', 'building'],
  ['man_made', 'mast tower communications_tower silo water_tower', 'building'],
  ['building', '*', 'building'],
  ['man_made', 'cross adit mineshaft beacon', 'other'],
  ['historic', 'wayside_cross wayside_shrine memorial monument archaeological_site', 'other'],
  ['waterway', 'waterfall', 'other', 'point'],
  ['natural', 'cave_entrance', 'other'],
];

const WANTED = RULES.map(([key, values, kind, shape]) => ({
  key,
  values: values === '*' ? null : new Set(values.split(' ')),
  kind,
  shape,
}));

/** Chance that a path is to be made out on the ground, by `trail_visibility`; common practice, no published source. */
const TRAIL_EXISTS: Readonly<Record<string, number>> = {
  excellent: 0.97,
  good: 0.93,
  intermediate: 0.85,
  bad: 0.65,
  horrible: 0.45,
  no: 0.25,
};

/** What an element is to the engine, by its tags and its projected shape; null when of no kind. */
export function osmKind(tags: Tags, parts: readonly Geometry[]): Classified | null {
  const shape = parts[0]!.type;
  // what runs underground, is planned or is gone cannot be seen; a culvert is short and the stream goes on below it
  if (tags.tunnel && tags.tunnel !== 'no' && tags.waterway === undefined) return null;
  if (tags.highway === 'proposed' || tags.highway === 'construction' || tags.highway === 'razed') return null;
  const rule = WANTED.find(
    (r) => matches(tags[r.key], r.values) && (r.shape === undefined || fits(r.shape, shape)),
  );
  if (rule === undefined) return null;
  return refined(rule.kind, tags, parts);
}

function matches(value: string | undefined, values: ReadonlySet<string> | null): boolean {
  if (value === undefined || value === '' || value === 'no') return false;
  return values === null || values.has(value);
}

// a closed line may be an area: exports differ in which they write
function fits(wanted: Geometry['type'], shape: Geometry['type']): boolean {
  return wanted === shape || (wanted === 'area' && shape === 'line');
}

function refined(kind: FeatureKind, tags: Tags, parts: readonly Geometry[]): Classified {
  if (kind === 'path') return pathOf(tags);
  if (kind === 'stream' && isSmall(tags)) return { kind: 'small-stream', ...known(intermittent(tags, 0.6)) };
  if (kind === 'lake') return { kind: standingWater(parts), ...known(intermittent(tags, 0.5)) };
  if (kind === 'wall' && (tags.ruined === 'yes' || tags.ruins === 'yes')) return { kind: 'ruined-wall' };
  return { kind, ...known(intermittent(tags, 0.5)) };
}

function pathOf(tags: Tags): Classified {
  const exists = TRAIL_EXISTS[tags.trail_visibility ?? ''];
  const legal = /^public_|core_path/.test(tags.designation ?? '');
  // a way that the mapper saw nothing of is a line of the law or of habit
  if (tags.trail_visibility === 'no')
    return legal ? { kind: 'right-of-way' } : { kind: 'trod', known: { exists: 0.25 } };
  return { kind: 'path', ...known(exists === undefined ? {} : { exists }) };
}

function isSmall(tags: Tags): boolean {
  const width = Number.parseFloat(tags.width ?? '');
  return tags.intermittent === 'yes' || tags.seasonal === 'yes' || width < 1;
}

function intermittent(tags: Tags, exists: number): Partial<Doubt> {
  return tags.intermittent === 'yes' || tags.seasonal === 'yes' ? { exists } : {};
}

/** A lake from 2 ha, a tarn from 20 m across, a pool below. */
function standingWater(parts: readonly Geometry[]): FeatureKind {
  const squareMetres = parts.reduce((sum, p) => sum + (p.type === 'area' ? areaOf(p.rings) : 0), 0);
  return squareMetres >= 20_000 ? 'lake' : squareMetres >= 400 ? 'tarn' : 'pool';
}

function known(doubt: Partial<Doubt>): { known?: Partial<Doubt> } {
  return Object.keys(doubt).length === 0 ? {} : { known: doubt };
}

const TELLING = [
  'natural',
  'waterway',
  'highway',
  'barrier',
  'man_made',
  'landuse',
  'historic',
  'building',
  'leisure',
  'amenity',
  'tourism',
  'place',
  'railway',
  'aerialway',
  'power',
  'boundary',
  'route',
  'piste:type',
];

/** The tag under which an element that was left out is counted, such as `natural=scrub`. */
export function tellingTag(tags: Tags): string {
  const key = TELLING.find((k) => tags[k] !== undefined && tags[k] !== '');
  return key === undefined ? 'without a telling tag' : `${key}=${tags[key]}`;
}
