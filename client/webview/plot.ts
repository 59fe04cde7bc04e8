import type { PlotView } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';
import { putSvg } from './svg-in-page.ts';
import { foldedTable } from './table.ts';

/** A plot of the server, or a drawing (`sheet`, whose narrow layout is broader), with the same as a table, folded away. Where nothing has changed, nothing moves. */
export function createPlot(title: string, asTable: string, place: string, layout: 'plot' | 'sheet' = 'plot') {
  // Scrolled by the keyboard where it is wider than the view.
  const frame = element('div', {
    className: layout === 'sheet' ? 'plot-frame as-sheet' : 'plot-frame',
    role: 'group',
    ariaLabel: title,
    tabIndex: 0,
  });
  const rows = element('details', { hidden: true });
  const section = element('section', { ariaLabel: title, hidden: true }, [frame, rows]);
  let shown: string | undefined;
  return {
    section,
    show: ({ svg, why, table: facts }: PlotView): void => {
      section.hidden = svg === undefined && why === undefined;
      if (svg === undefined)
        frame.replaceChildren(...(why === undefined ? [] : [element('p', { className: 'q', textContent: why })]));
      else if (svg !== shown) putSvg(frame, svg, place);
      shown = svg;
      rows.hidden = facts === undefined;
      if (facts !== undefined) rows.replaceChildren(...foldedTable(asTable, facts, 'levels'));
    },
    source: () => shown,
  };
}
