import type { Point } from '../math/plane.ts';
import { toLonLat } from '../terrain/projection.ts';
import type { WrittenAbout, WrittenLeg, WrittenRoute } from './written.ts';

/**
 * Routes as GPX 1.1 (https://www.topografix.com/GPX/1/1/): one `rte` each, a named point at every leg's end with what is said aloud
 * as its description, and the bends of lines between. No times: a plan has none.
 */
export function gpxOf(routes: readonly WrittenRoute[], about: WrittenAbout): string {
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<gpx version="1.1" creator="${xml(about.creator)}" xmlns="http://www.topografix.com/GPX/1/1" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:schemaLocation="http://www.topografix.com/GPX/1/1 http://www.topografix.com/GPX/1/1/gpx.xsd">`,
    '  <metadata>',
    `    <name>${xml(about.title)}</name>`,
    `    <desc>${xml(about.remarks.join(' '))}</desc>`,
    '  </metadata>',
  ];
  for (const route of routes) lines.push(...routeLines(route, about.crs));
  lines.push('</gpx>', '');
  return lines.join('\n');
}

function routeLines(route: WrittenRoute, crs: string): string[] {
  const lines = [
    '  <rte>',
    `    <name>${xml(`${route.letter} ${route.name}`.trim())}</name>`,
    `    <desc>${xml(route.strategy)}</desc>`,
  ];
  const first = route.legs[0];
  if (first) lines.push(pointLine(first.path[0]!, crs, first.from, undefined));
  for (const leg of route.legs) lines.push(...legLines(leg, crs));
  lines.push('  </rte>');
  return lines;
}

function legLines(leg: WrittenLeg, crs: string): string[] {
  const inner = leg.path.slice(1, -1).map((p) => pointLine(p, crs, undefined, undefined));
  return [...inner, pointLine(leg.path[leg.path.length - 1]!, crs, leg.to, leg.says)];
}

function pointLine(p: Point, crs: string, name: string | undefined, says: string | undefined): string {
  const [lon, lat] = toLonLat(crs, p);
  const inner = `${name === undefined ? '' : `<name>${xml(name)}</name>`}${says === undefined ? '' : `<desc>${xml(says)}</desc>`}`;
  const open = `    <rtept lat="${lat.toFixed(7)}" lon="${lon.toFixed(7)}"`;
  return inner === '' ? `${open}/>` : `${open}>${inner}</rtept>`;
}

/** Text for XML 1.0: the five entities, and no character that XML forbids even when escaped. */
function xml(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that XML 1.0 forbids
  const allowed = text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ud800-\udfff\ufffe\uffff]/gu, '');
  return allowed.replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`);
}
