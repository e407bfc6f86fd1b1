import { textWidth } from '../theme/text-width.ts';

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Keeps what stands on a map apart: first come, first placed. */
export class LabelRoom {
  private readonly taken: Box[] = [];
  private readonly width: number;
  private readonly height: number;

  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
  }

  free(box: Box): boolean {
    if (box.x0 < 3 || box.y0 < 3 || box.x1 > this.width - 3 || box.y1 > this.height - 3) return false;
    return !this.taken.some((t) => t.x0 < box.x1 && box.x0 < t.x1 && t.y0 < box.y1 && box.y0 < t.y1);
  }

  take(box: Box): void {
    this.taken.push(box);
  }

  takeRound(x: number, y: number, radius: number): void {
    this.take({ x0: x - radius, y0: y - radius, x1: x + radius, y1: y + radius });
  }

  /** A place beside (x, y) for a text of this size: right, left, above, below; null when all are taken. */
  beside(x: number, y: number, text: string, size: number, away: number): { x: number; y: number } | null {
    const w = textWidth(text, size);
    const h = size * 1.1;
    const left = [x + away, x - away - w, x - w / 2, x - w / 2];
    const top = [y - h / 2, y - h / 2, y - away - h, y + away];
    for (let i = 0; i < 4; i++) {
      const box = { x0: left[i]!, y0: top[i]!, x1: left[i]! + w, y1: top[i]! + h };
      if (!this.free(box)) continue;
      this.take(box);
      return { x: box.x0, y: box.y0 + h * 0.78 };
    }
    return null;
  }
}
