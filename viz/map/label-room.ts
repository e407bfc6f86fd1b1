import { textWidth } from '../theme/text-width.ts';

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Where a text is written, and which part of it stands there. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

/** Keeps what stands on a map apart: first come, first placed. */
export class LabelRoom {
  private readonly taken: Box[] = [];
  /** Lines that a text should not cross when there is another place. */
  private readonly lines: Box[] = [];
  private readonly width: number;
  private readonly height: number;

  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
  }

  /** With `strict`, free of lines as well. */
  free(box: Box, strict = false): boolean {
    if (box.x0 < 3 || box.y0 < 3 || box.x1 > this.width - 3 || box.y1 > this.height - 3) return false;
    const meets = (t: Box) => t.x0 < box.x1 && box.x0 < t.x1 && t.y0 < box.y1 && box.y0 < t.y1;
    return !this.taken.some(meets) && !(strict && this.lines.some(meets));
  }

  /** A line to keep clear of, as a row of small boxes. */
  avoid(points: readonly (readonly [number, number])[]): void {
    for (let i = 1; i < points.length; i++) {
      const [a, b] = [points[i - 1]!, points[i]!];
      const steps = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / 8));
      for (let k = 0; k <= steps; k++) {
        const x = a[0] + ((b[0] - a[0]) * k) / steps;
        const y = a[1] + ((b[1] - a[1]) * k) / steps;
        if (x > 0 && y > 0 && x < this.width && y < this.height) {
          this.lines.push({ x0: x - 2, y0: y - 2, x1: x + 2, y1: y + 2 });
        }
      }
    }
  }

  take(box: Box): void {
    this.taken.push(box);
  }

  takeRound(x: number, y: number, radius: number): void {
    this.take({ x0: x - radius, y0: y - radius, x1: x + radius, y1: y + radius });
  }

  /** A text around (x, y), if it is free there. */
  centred(x: number, y: number, text: string, size: number): Place | null {
    const w = textWidth(text, size);
    const box = { x0: x - w / 2, y0: y - size * 0.55, x1: x + w / 2, y1: y + size * 0.55 };
    if (!this.free(box, true)) return null;
    this.take(box);
    return { x, y: y + size * 0.33, anchor: 'middle' };
  }

  /** A place beside (x, y) for a text of this size: right, left, above, below; null when all are taken. */
  beside(x: number, y: number, text: string, size: number, away: number): Place | null {
    const w = textWidth(text, size);
    const h = size * 1.1;
    // The anchor is the side towards the sign, so that a wrong guess of the width never covers it.
    const sides = [
      { left: x + away, top: y - h / 2, x: x + away, anchor: 'start' },
      { left: x - away - w, top: y - h / 2, x: x - away, anchor: 'end' },
      { left: x - w / 2, top: y - away - h, x, anchor: 'middle' },
      { left: x - w / 2, top: y + away, x, anchor: 'middle' },
    ] as const;
    for (const strict of [true, false]) {
      for (const side of sides) {
        const box = { x0: side.left, y0: side.top, x1: side.left + w, y1: side.top + h };
        if (!this.free(box, strict)) continue;
        this.take(box);
        return { x: side.x, y: side.top + h * 0.78, anchor: side.anchor };
      }
    }
    return null;
  }
}
