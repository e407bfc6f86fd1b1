import type { Child, Make } from './element.ts';

export interface Column {
  readonly head: string;
  /** Figures stand to the right, under each other. */
  readonly figures?: boolean;
}

/**
 * A table that can be scrolled sideways where it does not fit; with `blocks` a phone shows each row as a block of named figures
 * instead. The roles are written out because a style that turns rows into blocks takes them from the elements.
 */
export function table(
  make: Make,
  caption: string,
  columns: readonly Column[],
  rows: readonly (readonly Child[])[],
  options: { readonly blocks?: boolean } = {},
): HTMLElement {
  const role = (name: string) => (options.blocks ? name : null);
  const kind = (c: Column) => (c.figures ? 'figures' : null);
  const head = columns.map((c) =>
    make('th', { scope: 'col', class: kind(c), role: role('columnheader') }, c.head),
  );
  const body = rows.map((cells) =>
    make(
      'tr',
      { role: role('row') },
      ...cells.map((cell, i) => {
        const c = columns[i]!;
        const attributes = { 'data-head': c.head, class: kind(c) };
        return i === 0
          ? make('th', { ...attributes, scope: 'row', role: role('rowheader') }, cell)
          : make('td', { ...attributes, role: role('cell') }, cell);
      }),
    ),
  );
  return make(
    'div',
    { class: 'table-room', tabindex: 0, role: 'region', 'aria-label': caption },
    make(
      'table',
      { class: options.blocks ? 'blocks' : null, role: role('table') },
      make('caption', {}, caption),
      make('thead', { role: role('rowgroup') }, make('tr', { role: role('row') }, ...head)),
      make('tbody', { role: role('rowgroup') }, ...body),
    ),
  );
}

/** A table folded away under the drawing that says the same. */
export function folded(make: Make, summary: string, content: HTMLElement): HTMLElement {
  return make('details', { class: 'folded' }, make('summary', {}, summary), content);
}
