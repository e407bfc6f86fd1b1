import type { WrittenTask } from '../../src/study/schema.ts';
import type { Work } from './work.ts';

/** The invented ground that the page brings with it, and its task. */
export function demoWork(document: Document): Work {
  const data = JSON.parse(document.getElementById('demo')?.textContent ?? '{}') as Record<
    'terrainJson' | 'elevation' | 'features',
    string
  > & { readonly task: WrittenTask };
  const text = atob(data.elevation);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = text.charCodeAt(i);
  return {
    folder: {
      terrainJson: data.terrainJson,
      files: [{ name: 'elevation.tif', bytes }],
      features: data.features,
    },
    task: data.task,
    own: [],
    suggestions: [],
  };
}
