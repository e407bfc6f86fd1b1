import FlatQueue from 'flatqueue';
import { edgesIn, edgesOut, type Network, type Weight } from './network.ts';

/** Least weight between one place and every other that is connected: `from` the place, or `to` it. */
export function networkDistances<P>(
  network: Network<P>,
  place: string,
  direction: 'from' | 'to',
  weight: Weight<P>,
): Map<string, number> {
  const known = new Map<string, number>([[place, 0]]);
  const queue = new FlatQueue<string>();
  queue.push(place, 0);
  while (queue.length > 0) {
    const distance = queue.peekValue()!;
    const at = queue.pop()!;
    if (distance > known.get(at)!) continue;
    for (const edge of direction === 'from' ? edgesOut(network, at) : edgesIn(network, at)) {
      const next = direction === 'from' ? edge.to : edge.from;
      const longer = distance + weight(edge);
      if (longer < (known.get(next) ?? Number.POSITIVE_INFINITY)) {
        known.set(next, longer);
        queue.push(next, longer);
      }
    }
  }
  return known;
}
