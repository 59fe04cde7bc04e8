import { element } from './element.ts';

export interface Rows {
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | Node)[])[];
}

/** A drawing or a plot as a table, folded away; one that is wider than the view is scrolled by itself, also by the keyboard. */
export function foldedTable(name: string, rows: Rows, className: string): readonly Node[] {
  const frame = element('div', { className: 'table-frame', role: 'group', ariaLabel: name, tabIndex: 0 });
  frame.append(table(rows, className));
  return [element('summary', { textContent: name }), frame];
}

/** A table whose first cell of each row names it. */
export function table({ caption, columns, rows }: Rows, className: string): HTMLTableElement {
  const head = element(
    'tr',
    {},
    columns.map((text) => (text === '' ? element('td', {}) : element('th', { scope: 'col', textContent: text }))),
  );
  return element('table', { className }, [
    element('caption', { textContent: caption }),
    element('thead', {}, [head]),
    element(
      'tbody',
      {},
      rows.map(([name = '', ...cells]) =>
        element('tr', {}, [element('th', { scope: 'row' }, [name]), ...cells.map((cell) => element('td', {}, [cell]))]),
      ),
    ),
  ]);
}
