import { type Selection, select } from 'd3';
import type { View } from '../map/view.ts';
import type { Figure, Group } from '../theme/figure.ts';

const SVG = 'http://www.w3.org/2000/svg';
/** px below the neat line, for scale and north. */
const FOOT = 34;
/** Drawn beyond the neat line on each side, as a share of the map, for the hand to move into. */
const SPARE = 0.25;

export interface Around {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * The drawings that the map is made of, one over the other and each painted by itself: what moves while one draws does not paint the
 * ground anew, and the hand moves them as they are. All but the furniture are cut at the neat line.
 */
export class MapLayers {
  readonly under: Group;
  /** Under the letters and the ends of the task. */
  readonly line: Group;
  readonly over: Group;
  readonly sketched: Group;
  readonly furniture: Group;
  private readonly pane: HTMLElement;
  private readonly frame: Figure;
  private readonly layers: readonly Layer[];

  constructor(element: HTMLElement) {
    this.pane = document.createElement('div');
    this.pane.className = 'pane';
    this.frame = drawing().attr('class', 'figure map frame');
    element.append(this.pane, this.frame.node()!);
    this.layers = [1, 2, 3, 4].map((n) => layerIn(this.pane, `live-${n}`));
    const [under, line, over, sketched] = this.layers.map((l) => l.inside) as [Group, Group, Group, Group];
    this.under = under;
    this.line = line.append('g');
    this.over = over;
    this.sketched = sketched.append('g');
    this.furniture = this.frame.append('g').attr('class', 'furniture');
  }

  /** Makes the layers lie as the view says; what they should be drawn on, px. */
  lay({ width, height }: View): Around {
    const [x, y] = [-Math.round(SPARE * width), -Math.round(SPARE * height)];
    const around = { x, y, width: width - 2 * x, height: height - 2 * y };
    this.frame.attr('viewBox', `0 0 ${width} ${height + FOOT}`);
    this.pane.style.height = `${(100 * height) / (height + FOOT)}%`;
    for (const { svg, clip } of this.layers) {
      svg.attr('viewBox', `0 0 ${width} ${height}`).style('transform', null);
      clip.attr('x', x).attr('y', y).attr('width', around.width).attr('height', around.height);
    }
    return around;
  }

  /** Moves and scales what is drawn so that it lies in another view; false when too little of that has been drawn. */
  shift(drawn: View, view: View): boolean {
    const k = view.scale / drawn.scale;
    const dx = (drawn.bounds.west - view.bounds.west) * view.scale;
    const dy = (view.bounds.north - drawn.bounds.north) * view.scale;
    const [left, top] = [dx - SPARE * drawn.width * k, dy - SPARE * drawn.height * k];
    const right = left + (1 + 2 * SPARE) * drawn.width * k;
    const bottom = top + (1 + 2 * SPARE) * drawn.height * k;
    // a little of nothing at the edges is seen by nobody who moves the map
    const bare = 0.2 * view.width;
    if (left > bare || top > bare || right < view.width - bare || bottom < view.height - bare) return false;
    if (k > 2.5) return false;
    const shown = (this.pane.clientWidth || view.width) / view.width;
    const move = `translate(${dx * shown}px, ${dy * shown}px) scale(${k})`;
    for (const { svg } of this.layers) svg.style('transform', move);
    return true;
  }
}

/** One drawing, cut a little way beyond the neat line. */
interface Layer {
  readonly svg: Figure;
  readonly inside: Group;
  readonly clip: Selection<SVGRectElement, unknown, null, undefined>;
}

function layerIn(pane: HTMLElement, id: string): Layer {
  const svg = drawing().attr('class', 'figure map');
  const clip = svg.append('defs').append('clipPath').attr('id', id).append('rect');
  const inside = svg.append('g').attr('clip-path', `url(#${id})`);
  pane.append(svg.node()!);
  return { svg, inside, clip };
}

function drawing(): Figure {
  return select(document.createElementNS(SVG, 'svg')).attr('aria-hidden', 'true') as Figure;
}
