import type { Child, Make } from './element.ts';

export interface Column {
  readonly head: string;
  /** Figures stand to the right, under each other. */
  readonly figures?: boolean;
}

/** A table whose cells carry their column's name, so that a phone can show each row as a block. */
export function table(
  make: Make,
  caption: string,
  columns: readonly Column[],
  rows: readonly (readonly Child[])[],
): HTMLElement {
  return make(
    'div',
    { class: 'table-room', tabindex: 0, role: 'region', 'aria-label': caption },
    make(
      'table',
      {},
      make('caption', {}, caption),
      make(
        'thead',
        {},
        make(
          'tr',
          {},
          ...columns.map((c) => make('th', { scope: 'col', class: c.figures ? 'figures' : null }, c.head)),
        ),
      ),
      make(
        'tbody',
        {},
        ...rows.map((cells) =>
          make('tr', {}, ...cells.map((cell, i) => bodyCell(make, columns[i]!, cell, i))),
        ),
      ),
    ),
  );
}

function bodyCell(make: Make, column: Column, cell: Child, index: number): HTMLElement {
  const attributes = { 'data-head': column.head, class: column.figures ? 'figures' : null };
  return index === 0 ? make('th', { ...attributes, scope: 'row' }, cell) : make('td', attributes, cell);
}

/** A table folded away under the drawing that says the same. */
export function folded(make: Make, summary: string, content: HTMLElement): HTMLElement {
  return make('details', { class: 'folded' }, make('summary', {}, summary), content);
}
