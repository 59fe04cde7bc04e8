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
import type { CardSetting, CardSource } from './card.ts';
import { boxCell, ohmCells } from './frame.ts';

export function positionTable(analysed: InstrumentAnalysis, { analysis, setting }: CardSource): HtmlNode {
  const { bench } = analysis;
  const { t } = setting;
  const estimates = analysed.positions();
  return h(
    'section',
    { class: 'long' },
    table({
      caption: t('Positions, read at the jack at {0}, controls full up, kΩ', printCelsius(setting.roomC, t.numbers)),
      columns: [
        [t('position'), undefined, 2],
        t('joins'),
        [t('expected'), 'n'],
        t('passes'),
        [t('read'), 'box'],
        t('phase'),
        t('hum, dB'),
      ],
      rows: analysed.instrument.positions.map((position, index) => {
        const { phase = 'unproven', humDb, levelDb } = estimates[index] ?? {};
        return [
          rowHead(h('b', {}, position.key.value)),
          h('td', {}, typed(position.title ?? '')),
          h('td', {}, position.selection ? typed(selectionWords(position.selection, t)) : t('not readable')),
          ...readingCells(analysed, index, bench, setting),
          boxCell(),
          h('td', {}, phaseExplained(phase, t), ...(position.onPurpose ? [t(', on purpose')] : [])),
          h(
            'td',
            { class: humDb ? 's' : undefined },
            humDb
              ? numberParts(humDb, POSITION_NUMBERS.humDb, undefined, t).number
              : t(levelDb === null ? SILENT : 'unknown: kick and compass'),
          ),
        ];
      }),
    }),
    h(
      'p',
      { class: 'q' },
      t(
        'Hum against the strongest coil of the position in place, uniform field: 0 is a single coil. Nothing plugged in but the meter.',
      ),
    ),
  );
}

export function readingCells(
  { instrument }: InstrumentAnalysis,
  index: number,
  bench: Bench | undefined,
  { roomC, t }: CardSetting,
): readonly HtmlNode[] {
  const selection = instrument.positions[index]?.selection;
  const ohm =
    selection && jackResistance({ instrument, quickOf: quickOf(bench), bench }, selection, { temperatureC: roomC });
  if (ohm === null) return [h('td', { class: 'n q' }, t('open')), h('td', { class: 'q' }, '')];
  if (ohm === undefined || !Number.isFinite(ohm.value))
    return [h('td', { class: 'n q' }, t('unknown')), h('td', { class: 'q' }, t('read each coil'))];
  return ohmCells(ohm, bench, t);
}
