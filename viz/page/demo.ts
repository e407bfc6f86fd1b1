import { readTaskDocument } from '../../src/study/read-task.ts';
import type { Work } from './work.ts';

/** The invented ground that the page brings with it, and its task. */
export function demoWork(document: Document): Work {
  const data = JSON.parse(document.getElementById('demo')?.textContent ?? '{}') as Record<
    'terrainJson' | 'elevation' | 'features' | 'task',
    string
  >;
  const bytes = Uint8Array.from(atob(data.elevation), (c) => c.charCodeAt(0));
  return {
    folder: {
      terrainJson: data.terrainJson,
      files: [{ name: 'elevation.tif', bytes }],
      features: data.features,
    },
    task: readTaskDocument(data.task, 'demo.task.yaml').value,
    own: [],
    suggestions: [],
  };
}
