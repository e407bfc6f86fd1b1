import { fromArrayBuffer } from 'geotiff';
import { dependencies } from '../../package.json';
import { codecs } from '../../src/cli/node/codecs.ts';
import { CHILD_ENVIRONMENT } from '../../src/cli/node/decode-child.ts';
import { readGeotiff } from '../../src/terrain/read-geotiff.ts';
import type { Bench, Round } from './bench.ts';
import { ground, writeGround } from './ground.ts';
import { pythonPeer } from './python-peer.ts';

const SIDE = 4000;

/** Files are decoded in a child: this is how it is started. */
export const environment = CHILD_ENVIRONMENT;

async function round(work: () => Promise<ArrayLike<number>>): Promise<Round> {
  const start = process.cpuUsage();
  const heights = await work();
  const { user, system } = process.cpuUsage(start);
  let checksum = 0;
  for (let i = 0; i < heights.length; i++) checksum += heights[i]!;
  return { amount: (user + system) / 1e6, checksum };
}

function reading(
  name: string,
  ratio: number,
  peerOf: (folder: string, bytes: Uint8Array) => ReturnType<typeof pythonPeer>,
): Bench {
  return {
    name: `read a GeoTIFF ${SIDE} × ${SIDE} Float32 deflate, against ${name}`,
    must: { ratio },
    rounds: 5,
    agree: 1e-9,
    async prepare(folder) {
      const bytes = writeGround(ground(SIDE), folder);
      return {
        data: `${(bytes.length / 1e6).toFixed(1)} MB, seed 1`,
        ours: () => round(async () => (await readGeotiff(bytes, undefined, codecs)).data),
        peer: await peerOf(folder, bytes),
      };
    },
  };
}

export const bench: readonly Bench[] = [
  reading('the geotiff package with its defaults', 3.5, async (_, bytes) => ({
    version: `geotiff ${dependencies.geotiff}`,
    round: () =>
      round(async () => {
        const image = await (await fromArrayBuffer(bytes.slice().buffer as ArrayBuffer)).getImage();
        return (await image.readRasters())[0] as Float32Array;
      }),
    stop: () => {},
  })),
  // at most 1.4 times the peer's time
  reading('GDAL', 1 / 1.4, (folder) => pythonPeer('gdal_read.py', 'osgeo.gdal', folder)),
];
