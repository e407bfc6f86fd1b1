import { drawMap } from '../../map/map.ts';
import type { Sheet } from '../../map/sheet-use.ts';
import { folded, table } from '../../theme/table.ts';
import { kindName } from '../../theme/words.ts';
import { mapLegend } from '../legend.ts';
import type { Writing } from '../page-parts.ts';
import { drawing, section } from '../page-parts.ts';
import { routeList } from './route-list.ts';

export function mapSection(writing: Writing, sheet: Sheet): HTMLElement {
  const { report, make } = writing;
  const { features } = report;
  return section(
    make,
    'map',
    'Map',
    drawing(writing, 'task-map', (o) => drawMap({ report, sheet }, o), mapLegend(writing, sheet)),
    routeList(writing),
    folded(
      make,
      'Features and their doubt, as a table',
      table(
        make,
        'Features of the map',
        [
          { head: 'feature' },
          { head: 'kind' },
          { head: 'there, of 100', figures: true },
          { head: 'place, ± m', figures: true },
        ],
        features
          .filter((f) => f.name !== null)
          .slice(0, 200)
          .map((f) => [
            f.name,
            kindName(f.kind),
            String(Math.round(f.exists * 100)),
            String(Math.round(f.positionMetres)),
          ]),
      ),
    ),
  );
}
