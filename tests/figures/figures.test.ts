import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { DOMParser } from 'linkedom/worker';
import { describe, expect, test } from 'vitest';
import { galleryFigures } from '../../viz/gallery/figures.ts';
import { renderGallery } from '../../viz/gallery/gallery.ts';
import { groundOf } from '../../viz/map/ground.ts';
import { reportSheet } from '../../viz/map/map.ts';
import { newDocument } from '../../viz/theme/node-document.ts';
import { sampleReport } from './sample-report.ts';

/**
 * Snapshots say only that a drawing is unchanged since somebody looked at it in the gallery.
 * `REMAKE_FIGURES=1 npx vitest run tests/figures` writes them anew; look at them, then commit.
 */
const remake = process.env.REMAKE_FIGURES === '1';
const document = newDocument();
const report = sampleReport();
const { sheet } = reportSheet(report, groundOf(report), { document, width: 860, id: 'ground' });
const figures = galleryFigures(report, sampleReport({ varied: true, trials: 200 }), sheet);

if (remake && process.env.CI !== undefined) throw new Error('figures are looked at, not remade, in CI');

describe.each([860, 350])('at %d px', (width) => {
  test.each(figures.map((f) => [f.name, f] as const))('%s is as it was looked at', (name, figure) => {
    const drawn = lines(figure.draw({ document, width, id: name }));
    const file = new URL(`golden/${name}-${width}.svg`, import.meta.url);
    if (remake) {
      mkdirSync(new URL('golden', import.meta.url), { recursive: true });
      writeFileSync(file, drawn);
    }
    expect(existsSync(file), `${name}-${width}.svg has no snapshot: remake and look`).toBe(true);
    expect(drawn).toBe(readFileSync(file, 'utf8'));
  });

  test.each(figures.map((f) => [f.name, f] as const))(
    '%s has a name and stays in its frame',
    (name, figure) => {
      const svg = figure.draw({ document, width, id: name });
      expect(svg.querySelector('title')!.textContent).not.toBe('');
      expect(svg.getAttribute('aria-labelledby')).toBe(`${name}-title ${name}-desc`);
      const [, , w, h] = svg.getAttribute('viewBox')!.split(' ').map(Number);
      expect(w).toBe(width);
      for (const mark of svg.querySelectorAll('rect, circle')) {
        // Marks inside moved groups are counted from there; only those of the figure itself are looked at.
        if (mark.closest('g[transform], defs')) continue;
        for (const at of [Number(mark.getAttribute('x') ?? mark.getAttribute('cx') ?? 0)]) {
          expect(at).toBeGreaterThanOrEqual(-1);
          expect(at).toBeLessThanOrEqual(width + 1);
        }
        expect(Number(mark.getAttribute('y') ?? mark.getAttribute('cy') ?? 0)).toBeLessThanOrEqual(h! + 1);
      }
      expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity/);
    },
  );
});

/** One element a line, so that a change shows as a line. */
function lines(svg: SVGSVGElement): string {
  return `${svg.outerHTML.replaceAll(/(?<=>)(?=<)/g, '\n')}\n`;
}

test('the gallery shows every figure at both widths', () => {
  const page = new DOMParser().parseFromString(
    renderGallery(report, sampleReport({ varied: true, trials: 200 }), ''),
    'text/html',
  );
  for (const f of figures) {
    for (const id of [`${f.name}-w`, `${f.name}-n`]) {
      expect(page.getElementById(`${id}-title`)?.textContent, id).toBeTruthy();
    }
  }
});
