import { drawMap } from '../../map/map.ts';
import type { Sheet } from '../../map/sheet-use.ts';
import { folded, table } from '../../theme/table.ts';
import { mapLegend } from '../legend.ts';
import type { Writing } from '../page-parts.ts';
import { drawing, section } from '../page-parts.ts';
import { routeList } from './route-list.ts';

export function mapSection(writing: Writing, sheet: Sheet): HTMLElement {
  const { report, make, words } = writing;
  const say = words.map;
  const [feature, kind, there, place] = say.heads;
  const { features } = report;
  return section(
    make,
    'map',
    say.heading,
    drawing(writing, 'task-map', (o) => drawMap({ report, sheet }, o), mapLegend(writing, sheet)),
    routeList(writing),
    folded(
      make,
      say.table,
      table(
        make,
        say.caption,
        [{ head: feature }, { head: kind }, { head: there, figures: true }, { head: place, figures: true }],
        features
          .filter((f) => f.name !== null)
          .slice(0, 200)
          .map((f) => [
            f.name,
            words.kind(f.kind),
            String(Math.round(f.exists * 100)),
            String(words.measures.bare.short(f.positionMetres)),
          ]),
      ),
    ),
  );
}
