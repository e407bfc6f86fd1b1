/** An integer hash of a lattice place and a seed, as a share in [0, 1). The same bits everywhere. */
export function latticeShare(x: number, y: number, seed: number): number {
  let h = Math.imul(x, 0x27d4eb2d) ^ Math.imul(y, 0x165667b1) ^ Math.imul(seed, 0x9e3779b1);
  h = Math.imul(h ^ (h >>> 15), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
}

/** Value noise in −1..1 with features of about `wave` metres. */
function waveNoise(east: number, north: number, wave: number, seed: number): number {
  const x = east / wave;
  const y = north / wave;
  const i = Math.floor(x);
  const j = Math.floor(y);
  const u = fade(x - i);
  const v = fade(y - j);
  const low = mix(latticeShare(i, j, seed), latticeShare(i + 1, j, seed), u);
  const high = mix(latticeShare(i, j + 1, seed), latticeShare(i + 1, j + 1, seed), u);
  return 2 * mix(low, high, v) - 1;
}

/** Four octaves, each of half the wave and `gain` the height of the one before. */
export function roughness(east: number, north: number, wave: number, gain: number, seed: number): number {
  let sum = 0;
  let height = 1;
  for (let octave = 0; octave < 4; octave++) {
    // Turned lattices keep the octaves from lining up along the axes.
    const a = octave % 2 === 0 ? east : 0.8 * east - 0.6 * north;
    const b = octave % 2 === 0 ? north : 0.6 * east + 0.8 * north;
    sum += height * waveNoise(a, b, wave / (1 << octave), seed + 101 * octave);
    height *= gain;
  }
  return sum;
}

function fade(t: number): number {
  return t * t * t * (t * (t * 6 - 15) + 10);
}

function mix(a: number, b: number, t: number): number {
  return a + (b - a) * t;
}
