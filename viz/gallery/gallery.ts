import type { Report } from '../../src/report/report.ts';
import { groundOf } from '../map/ground.ts';
import { reportSheet } from '../map/map.ts';
import { maker } from '../theme/element.ts';
import { newDocument } from '../theme/node-document.ts';
import { galleryFigures } from './figures.ts';

/** Every drawing at the width of the desk and of a phone, by day and by night, on one page to be looked at. */
export function renderGallery(report: Report, varied: Report, css: string): string {
  const document = newDocument();
  const make = maker(document);
  const { element, sheet } = reportSheet(report, groundOf(report), { document, width: 860, id: 'ground' });
  document.head.append(
    make('meta', { charset: 'utf-8' }),
    make('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    make('title', {}, 'Figures'),
    make('style', {}, css),
  );
  document.body.append(
    element,
    make(
      'main',
      {},
      make('h1', {}, 'Figures'),
      ...galleryFigures(report, varied, sheet).map((f) =>
        make(
          'section',
          {},
          make('h2', {}, f.says),
          make(
            'div',
            { class: 'pair' },
            make('figure', { class: 'desk' }, f.draw({ document, width: 860, id: `${f.name}-w` })),
            make('figure', { class: 'phone' }, f.draw({ document, width: 350, id: `${f.name}-n` })),
          ),
        ),
      ),
    ),
  );
  return document.toString();
}
