/**
 * Moves labels along one axis until neighbours are `gap` apart, each as near its wish as the others let it.
 * @returns places in the order of the wishes, within low..high where they fit there
 */
export function spread(wishes: readonly number[], gap: number, low: number, high: number): number[] {
  const order = wishes.map((_, i) => i).sort((a, b) => wishes[a]! - wishes[b]!);
  // Each run of touching labels is one block that sits where its members' wishes balance.
  const blocks: { first: number; count: number; sum: number }[] = [];
  const start = (b: { count: number; sum: number }) => {
    const middle = b.sum / b.count;
    const top = middle - ((b.count - 1) * gap) / 2;
    return Math.max(low, Math.min(top, high - (b.count - 1) * gap));
  };
  order.forEach((label, i) => {
    blocks.push({ first: i, count: 1, sum: wishes[label]! });
    while (blocks.length > 1) {
      const last = blocks[blocks.length - 1]!;
      const before = blocks[blocks.length - 2]!;
      if (start(before) + before.count * gap <= start(last)) break;
      before.count += last.count;
      before.sum += last.sum;
      blocks.pop();
    }
  });
  const places = new Array<number>(wishes.length).fill(0);
  for (const b of blocks) {
    for (let k = 0; k < b.count; k++) places[order[b.first + k]!] = start(b) + k * gap;
  }
  return places;
}
