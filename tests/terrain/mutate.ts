/** Damages files, the same way for the same seed. */
export function mutator(seed: number): (bytes: Uint8Array) => Uint8Array {
  let state = seed | 1;
  const random = (below: number): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
  const awkward = [0, 1, 2, 0x7f, 0x80, 0xff];
  return (bytes) => {
    const out = bytes.slice();
    // half of the blows fall on the head, where sizes, counts and offsets stand
    const place = () => random(random(2) === 0 ? Math.min(out.length, 600) : out.length);
    for (let blows = 1 + random(6); blows > 0; blows--) {
      const at = place();
      switch (random(6)) {
        case 0:
          out[at] = random(256);
          break;
        case 1:
          out[at] = awkward[random(awkward.length)]!;
          break;
        case 2:
          out[at]! ^= 1 << random(8);
          break;
        case 3:
          for (let i = at; i < Math.min(at + 4, out.length); i++) out[i] = 0xff;
          break;
        case 4:
          out.copyWithin(at, place(), Math.min(out.length, place() + 1 + random(64)));
          break;
        default:
          if (blows === 1 && random(3) === 0) return out.slice(0, at);
          out[at] = 0;
      }
    }
    return out;
  };
}
