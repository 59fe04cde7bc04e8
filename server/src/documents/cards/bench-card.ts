/** The bench check: every pair of leads before and after joining, kick, compass, inductance and Q, pass or fail. */

import { leadLetters } from '../../../../grammar/values/lead-name.ts';
import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import { APART_FROM_OHM, HANDS_OHM, JOINT_AT_MOST_OHM } from '../../estimates/common-practice.ts';
import { type InductanceMeterReading, inductanceMeter } from '../../estimates/inductance-meter.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import { holdingSweep } from '../../estimates/sweeps-used.ts';
import type { Bench } from '../../model/bench.ts';
import { poleOf } from '../../model/coil.ts';
import { parallelOhm } from '../../physics/meter.ts';
import { measureNext, type NextMeasurement } from '../../proposal/measure-next.ts';
import { measurementWords } from '../../proposal/measurement-words.ts';
import type { Estimate } from '../../quantities/estimate.ts';
import { printNumber, printValue } from '../../quantities/print.ts';
import { seekingTip, upWords } from '../../words/directions.ts';
import { KICK_METER, KICK_MOTION, KICK_READ } from '../../words/kick.ts';
import type { Language } from '../../words/languages/language.ts';
import { keysOf } from '../../words/numbers.ts';
import { filesWords, SWEPT_NUMBERS, sweptNumberText, verdictWords } from '../../words/sweep-words.ts';
import { capital } from '../../words/text.ts';
import { type HtmlNode, h, phrase, rowHead, section, sentence, table, typed, words } from '../html.ts';
import type { Card, CardSetting, CardSource } from './card.ts';
import {
  boxCell,
  cardWith,
  cautions,
  fields,
  gapCell,
  line,
  mind,
  ohmCells,
  pickupHead,
  tickBox,
  tickCell,
} from './frame.ts';
import { jointNodes } from './joint-table.ts';
import { kiloohm, plainly } from './numbers.ts';
import { compassCoils, type KickRow, kickRows } from './polarity-rows.ts';
import { type Expected, looseAndJoined, type ProbePair, probePairs } from './probe-pairs.ts';
import { leadNodes, pointName } from './swatch.ts';
import { toldQuantity } from './told-reading.ts';

export function benchCard(analysed: PickupAnalysis, { analysis, setting }: CardSource): Card {
  const { pickup } = analysed;
  const { bench } = analysis;
  const { t } = setting;
  const quick = quickOf(bench)(pickup);
  const states = looseAndJoined(quick);
  const pairs = probePairs(quick, states, bench, setting.roomC);
  return cardWith(
    pickupHead(analysed, 'bench', t('Bench check'), t),
    setting,
    fields([
      { label: t('room now, °C (printed for {0})', printNumber(setting.roomC, 0)) },
      { label: t('meter'), value: meterText(bench, t) },
      { label: t('probe leads shorted read, Ω') },
      { label: t('date, hand') },
    ]),
    pairTable(pairs, bench, t),
    h(
      'p',
      {},
      ...phrase(
        t,
        'Before: every lead free. After: {0}. Each °C warmer adds {1}.',
        jointNodes(quick.netlist, t),
        `${printNumber(0.4, 1, t.numbers)}\u202F%`,
      ),
      settles(pairs, t),
    ),
    ...nextReading(measureNext(analysed, analysis), t),
    h(
      'div',
      { class: 'two bench' },
      h(
        'div',
        {},
        kickTable(kickRows(quick, states.loose), t),
        mind(
          t,
          [
            fingers(pairs, bench, t),
            t('Let it settle an hour in the room; solder joints cold.'),
            t('Check the compass on a known pole first.'),
            ...cautions(t, 'magnets'),
          ],
          'column',
        ),
      ),
      h(
        'div',
        {},
        compassTable(quick, t),
        inductanceTable(quick, bench, setting),
        ...sweptTable(quick, t),
        ...result(t),
      ),
    ),
  );
}

function meterText(bench: Bench | undefined, t: Language): string {
  const meter = bench?.meter?.value;
  return meter === undefined
    ? t('1 % + 3 digits of 10 Ω, assumed')
    : t(
        '{0} % + {1} digits, {2} Ω steps',
        plainly(meter.accuracyPercent, t),
        plainly(meter.digits, t),
        plainly(meter.resolutionOhm, t),
      );
}

function pairTable(pairs: readonly ProbePair[], bench: Bench | undefined, t: Language): HtmlNode {
  return table({
    className: 'pairs',
    caption: t('Every pair of leads, before and after joining, out of circuit, kΩ'),
    columns: [
      [t('probes on'), undefined, 2],
      [t('before'), 'n'],
      t('passes'),
      [t('read'), 'box'],
      gapCell(),
      [t('after'), 'n'],
      t('passes'),
      [t('read'), 'box'],
    ],
    rows: pairs.map(({ points: [a, b], before, readBefore, after }) => [
      rowHead(...leadNodes(a.name, a.what, t)),
      rowHead(...leadNodes(b.name, b.what, t)),
      ...expectedCells(before, bench, t),
      readBefore
        ? h('td', { class: 'box' }, typed(readBefore === 'open' ? t('open') : toldQuantity(readBefore, t)))
        : boxCell(),
      gapCell(),
      ...expectedCells(after, bench, t),
      boxCell(),
    ]),
  });
}

function expectedCells(expected: Expected, bench: Bench | undefined, t: Language): readonly HtmlNode[] {
  const cells = (value: string, passes: string) => [
    h('td', { class: 'n q' }, value),
    h('td', { class: 'q s' }, passes),
  ];
  const { kind } = expected;
  return kind === 'resistance' ? ohmCells(expected.ohm, bench, t) : cells(t(kind), passesWords(kind, t));
}

function passesWords(kind: Exclude<Expected['kind'], 'resistance'>, t: Language): string {
  if (kind === 'open') return t('over {0} MΩ', plainly(APART_FROM_OHM / 1e6, t));
  return kind === 'joined' ? t('under {0} Ω', plainly(JOINT_AT_MOST_OHM, t)) : t('write it down');
}

function settles(pairs: readonly ProbePair[], t: Language): string {
  if (!pairs.some(({ before, after }) => before.kind === 'unknown' || after.kind === 'unknown')) return '';
  return ` ${t('Unknown: a pair that reads kΩ before joining is one coil; its reading settles the rest.')}`;
}

/** The one reading to begin with, where something is open. */
function nextReading(next: NextMeasurement | undefined, t: Language): readonly HtmlNode[] {
  if (next === undefined) return [];
  const { settles: open, how, handling } = measurementWords(next, t);
  return [h('p', {}, h('b', {}, t('Measure next')), ': ', words(open), ` (${handling}). `, sentence(how))];
}

function kickTable(rows: readonly KickRow[], t: Language): HtmlNode {
  const point = (at: KickRow['red'] | KickRow['black']): readonly HtmlNode[] =>
    typeof at === 'string'
      ? [t(at)]
      : [typed(at.what === 'lead' ? leadLetters(at.name) : pointName(at.name, at.what, t))];
  return section(
    table({
      caption: t('Kick: {0}, {1}', t(KICK_MOTION), t(KICK_METER)),
      columns: [t('red'), t('black'), t('over'), t('approach'), ['1', 'tick'], ['2', 'tick'], ['3', 'tick']],
      rows: rows.map(({ red, black, coil, approach }) => [
        rowHead(h('b', {}, ...point(red))),
        h('td', {}, ...point(black)),
        h('td', {}, typed(coil.name), ...(coil.below ? [t(', beneath: weak')] : [])),
        h('td', { class: 's' }, ...approachNodes(approach, t)),
        tickCell(),
        tickCell(),
        tickCell(),
      ]),
    }),
    h('p', { class: 'q' }, kickNote(rows, t)),
  );
}

const approachNodes = (approach: KickRow['approach'], t: Language): readonly HtmlNode[] =>
  approach === undefined
    ? [t('unknown')]
    : [h('b', {}, approach > 0 ? '+' : '−'), ` ${t(approach > 0 ? 'positive' : 'negative')}`];

function kickNote(rows: readonly KickRow[], t: Language): string {
  if (rows.length === 0) return t('Kick unknown: which leads belong to a coil; the meter finds them, then kick each.');
  const plain = `${capital(t(KICK_READ))}.`;
  return rows.some(({ approach }) => approach === undefined)
    ? `${plain} ${t('Unknown: this kick settles it; write + or − and that it was the approach.')}`
    : plain;
}

function compassTable(quick: QuickEstimates, t: Language): HtmlNode {
  const coils = compassCoils(quick);
  return section(
    table({
      caption: t('Compass, a few centimetres above'),
      columns: [t('poles of'), t('draw'), [t('seen'), 'tick']],
      rows: coils.map(({ coil, pole }) => [
        rowHead(h('b', {}, typed(coil.name))),
        h(
          'td',
          {},
          ...(pole === undefined
            ? [t('unknown: write down which tip is drawn')]
            : [`${t(seekingTip(poleOf(pole.sign)))}: `, h('b', {}, upWords(poleOf(pole.sign), t))]),
        ),
        tickCell(),
      ]),
    }),
  );
}

/** What a sweep of the whole pickup measured; what it was recorded through stands with it. */
function sweptTable(quick: QuickEstimates, t: Language): readonly HtmlNode[] {
  const swept = holdingSweep(quick, 'whole');
  if (!swept) return [];
  return [
    section(
      table({
        caption: t('Measured by a sweep, hot to ground'),
        columns: [h('td', {}), t('measured')],
        rows: keysOf(SWEPT_NUMBERS).map((key) => [
          rowHead(t(SWEPT_NUMBERS[key].what)),
          h('td', {}, sweptNumberText(swept, key, t)),
        ]),
      }),
      h('p', {}, typed(filesWords(swept)), `. ${verdictWords(swept, t)}`),
    ),
  ];
}

function inductanceTable(quick: QuickEstimates, bench: Bench | undefined, { roomC, t }: CardSetting): HtmlNode {
  const meter = inductanceMeter(quick, bench, roomC);
  const own = meter?.resonanceHz;
  const readings = INDUCTANCE_HZ.map((hz) => ({ hz, reading: told(meter?.at(hz)) }));
  const shown = readings.filter(({ hz, reading }) => reading || hz < ONLY_BELOW_RESONANCE_HZ);
  return section(
    table({
      caption: t('Inductance and Q, hot to ground'),
      columns: [t('at'), 'L, H', [t('read'), 'box'], 'Q', [t('read'), 'box']],
      rows: shown.map(({ hz, reading }) => [
        h(
          'th',
          { scope: 'row', class: 's' },
          h('b', {}, printValue({ value: hz, dimension: 'frequency', style: t.numbers })),
        ),
        h('td', { class: 's' }, reading ? band(reading.inductanceH, t) : t('unknown')),
        boxCell(),
        h('td', { class: 's' }, reading ? band(reading.quality, t) : t('unknown')),
        boxCell(),
      ]),
    }),
    h('p', { class: 'q' }, inductanceNote(meter !== undefined, own, shown.length < readings.length, t)),
  );
}

/** Usual settings of bench meters. Common practice, no published source. */
const INDUCTANCE_HZ: readonly number[] = [120, 1000, 10_000];
const ONLY_BELOW_RESONANCE_HZ = 10_000;

function inductanceNote(known: boolean, own: Estimate | undefined, left: boolean, t: Language): string {
  if (!known) return t('Unknown: bobbin, turns and wire, or one reading at 1 kHz settle it.');
  if (!left) return t('Series values, out of circuit.');
  return own
    ? t(
        '10 kHz is above or too near its own resonance, {0}: not read.',
        printValue({ ...own, dimension: 'frequency', style: t.numbers }),
      )
    : t('10 kHz is above or too near its own resonance: not read.');
}

/** A band as wide as its value tells nobody anything; it is left out. */
function told(reading: InductanceMeterReading | undefined): InductanceMeterReading | undefined {
  if (!reading) return undefined;
  const { inductanceH, quality } = reading;
  return [inductanceH, quality].every(({ value, sd }) => 4 * sd < value) ? reading : undefined;
}

/** Two standard deviations to either side, in the digits that they leave. */
function band({ value, sd }: Estimate, t: Language): string {
  if (!Number.isFinite(value) || !Number.isFinite(sd)) return t('unknown');
  const low = Math.max(0, value - 2 * sd);
  const high = value + 2 * sd;
  const decimals = Math.min(2, Math.max(0, Math.ceil(-Math.log10(Math.max(high - low, high * 1e-3)) + 0.3)));
  return t('{0} to {1}', printNumber(low, decimals, t.numbers), printNumber(high, decimals, t.numbers));
}

function fingers(pairs: readonly ProbePair[], bench: Bench | undefined, t: Language): string {
  const ohms = pairs.flatMap(({ before, after }) =>
    [before, after].flatMap((each) => (each.kind === 'resistance' ? [each.ohm.value] : [])),
  );
  if (ohms.length === 0)
    return t('Fingers off the probe tips: hands lie beside the coil and the reading comes out low.');
  const highest = Math.max(...ohms);
  return t(
    'Fingers off the probe tips: hands turn {0} into {1} kΩ.',
    kiloohm(highest, bench, t),
    kiloohm(parallelOhm(highest, HANDS_OHM), bench, t),
  );
}

function result(t: Language): readonly HtmlNode[] {
  return [
    h(
      'p',
      { class: 'result' },
      h('b', {}, t('Result')),
      ...tickBox(t('pass')),
      ...tickBox(t('repeat')),
      ...tickBox(t('fail, because')),
    ),
    h('p', { class: 'result' }, line(), ` ${t('signed')} `, line()),
  ];
}
