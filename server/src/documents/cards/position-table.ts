/** Every position of an instrument: how it joins its pickups, what the jack reads, phase and hum. */

import type { InstrumentAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import { jackResistance } from '../../estimates/positions.ts';
import type { Bench } from '../../model/bench.ts';
import { printCelsius } from '../../quantities/print.ts';
import { numberParts } from '../../words/number-text.ts';
import { POSITION_NUMBERS, SILENT } from '../../words/numbers.ts';
import { phaseExplained } from '../../words/phases.ts';
import { selectionWords } from '../../words/selections.ts';
import { type HtmlNode, h, rowHead, table, typed } from '../html.ts';
import type { CardSource } from './card.ts';
import { boxCell, ohmCells } from './frame.ts';

export function positionTable(analysed: InstrumentAnalysis, { analysis, setting }: CardSource): HtmlNode {
  const { bench } = analysis;
  const estimates = analysed.positions();
  return h(
    'section',
    { class: 'long' },
    table({
      caption: `Positions, read at the jack at ${printCelsius(setting.roomC)}, controls full up, kΩ`,
      columns: [['position', undefined, 2], 'joins', ['expected', 'n'], 'passes', ['read', 'box'], 'phase', 'hum, dB'],
      rows: analysed.instrument.positions.map((position, index) => {
        const { phase = 'unproven', humDb, levelDb } = estimates[index] ?? {};
        return [
          rowHead(h('b', {}, position.key.value)),
          h('td', {}, typed(position.title ?? '')),
          h('td', {}, position.selection ? typed(selectionWords(position.selection)) : 'not readable'),
          ...readingCells(analysed, index, bench, setting.roomC),
          boxCell(),
          h('td', {}, phaseExplained(phase), ...(position.onPurpose ? [', on purpose'] : [])),
          h(
            'td',
            { class: humDb ? 's' : undefined },
            humDb
              ? numberParts(humDb, POSITION_NUMBERS.humDb).number
              : levelDb === null
                ? SILENT
                : 'unknown: kick and compass',
          ),
        ];
      }),
    }),
    h(
      'p',
      { class: 'q' },
      'Hum against the strongest coil of the position in place, uniform field: 0 is a single coil. Nothing plugged in but the meter.',
    ),
  );
}

function readingCells(
  { instrument }: InstrumentAnalysis,
  index: number,
  bench: Bench | undefined,
  roomC: number,
): readonly HtmlNode[] {
  const selection = instrument.positions[index]?.selection;
  const ohm =
    selection && jackResistance({ instrument, quickOf: quickOf(bench), bench }, selection, { temperatureC: roomC });
  if (ohm === null) return [h('td', { class: 'n q' }, 'open'), h('td', { class: 'q' }, '')];
  if (ohm === undefined || !Number.isFinite(ohm.value))
    return [h('td', { class: 'n q' }, 'unknown'), h('td', { class: 'q' }, 'read each coil')];
  return ohmCells(ohm, bench);
}
