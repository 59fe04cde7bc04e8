/** The bench check: every pair of leads before and after joining, kick, compass, inductance and Q, pass or fail. */

import { leadLetters } from '../../../../grammar/values/lead-name.ts';
import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import { APART_FROM_OHM, HANDS_OHM, JOINT_AT_MOST_OHM } from '../../estimates/common-practice.ts';
import { type InductanceMeterReading, inductanceMeter } from '../../estimates/inductance-meter.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import type { Bench } from '../../model/bench.ts';
import { poleOf } from '../../model/coil.ts';
import { parallelOhm } from '../../physics/meter.ts';
import type { Estimate } from '../../quantities/estimate.ts';
import { printNumber, printValue } from '../../quantities/print.ts';
import { cautionsOf } from '../../words/cautions.ts';
import { seekingTip, upWords } from '../../words/directions.ts';
import { KICK_METER, KICK_MOTION, KICK_READ } from '../../words/kick.ts';
import { capital } from '../../words/text.ts';
import { type HtmlNode, h, rowHead, section, table, typed } from '../html.ts';
import type { Card, CardSource } from './card.ts';
import {
  boxCell,
  cardWith,
  fields,
  gapCell,
  line,
  mind,
  ohmCells,
  pickupHead,
  tickBox,
  tickCell,
  unknown,
} from './frame.ts';
import { jointNodes } from './joint-table.ts';
import { kiloohm } from './numbers.ts';
import { compassCoils, type KickRow, kickRows } from './polarity-rows.ts';
import { type Expected, looseAndJoined, type ProbePair, probePairs } from './probe-pairs.ts';
import { leadNodes } from './swatch.ts';

export function benchCard(analysed: PickupAnalysis, { analysis, setting }: CardSource): Card {
  const { pickup } = analysed;
  const { bench } = analysis;
  const quick = quickOf(bench)(pickup);
  const states = looseAndJoined(quick);
  const pairs = probePairs(quick, states, bench, setting.roomC);
  return cardWith(
    pickupHead(analysed, 'bench', 'Bench check'),
    setting,
    fields([
      { label: `room now, °C (printed for ${printNumber(setting.roomC, 0)})` },
      { label: 'meter', value: meterText(bench) },
      { label: 'probe leads shorted read, Ω' },
      { label: 'date, hand' },
    ]),
    pairTable(pairs, bench),
    h(
      'p',
      {},
      'Before: every lead free. After: ',
      ...jointNodes(quick.netlist),
      `. Each °C warmer adds 0.4\u202F%.${settles(pairs)}`,
    ),
    h(
      'div',
      { class: 'two bench' },
      h(
        'div',
        {},
        kickTable(kickRows(quick, states.loose)),
        mind(
          [
            ...fingers(pairs, bench),
            'Let it settle an hour in the room; solder joints cold.',
            'Check the compass on a known pole first.',
            ...cautionsOf('magnets'),
          ],
          'column',
        ),
      ),
      h('div', {}, compassTable(quick), inductanceTable(quick, bench, setting.roomC), ...result()),
    ),
  );
}

function meterText(bench: Bench | undefined): string {
  const meter = bench?.meter?.value;
  return meter === undefined
    ? '1 % + 3 digits of 10 Ω, assumed'
    : `${meter.accuracyPercent} % + ${meter.digits} digits, ${meter.resolutionOhm} Ω steps`;
}

function pairTable(pairs: readonly ProbePair[], bench: Bench | undefined): HtmlNode {
  return table({
    className: 'pairs',
    caption: 'Every pair of leads, before and after joining, out of circuit, kΩ',
    columns: [
      ['probes on', undefined, 2],
      ['before', 'n'],
      'passes',
      ['read', 'box'],
      gapCell(),
      ['after', 'n'],
      'passes',
      ['read', 'box'],
    ],
    rows: pairs.map(({ points: [a, b], before, readBefore, after }) => [
      rowHead(...leadNodes(a.name, a.what)),
      rowHead(...leadNodes(b.name, b.what)),
      ...expectedCells(before, bench),
      readBefore ? h('td', { class: 'box' }, typed(readBefore === 'open' ? 'open' : readBefore.written)) : boxCell(),
      gapCell(),
      ...expectedCells(after, bench),
      boxCell(),
    ]),
  });
}

function expectedCells(expected: Expected, bench: Bench | undefined): readonly HtmlNode[] {
  const words = (value: string, passes: string) => [
    h('td', { class: 'n q' }, value),
    h('td', { class: 'q s' }, passes),
  ];
  const { kind } = expected;
  return kind === 'resistance' ? ohmCells(expected.ohm, bench) : words(kind, PASSES[kind]);
}

const PASSES: Readonly<Record<Exclude<Expected['kind'], 'resistance'>, string>> = {
  open: `over ${APART_FROM_OHM / 1e6} MΩ`,
  joined: `under ${JOINT_AT_MOST_OHM} Ω`,
  unknown: 'write it down',
};

function settles(pairs: readonly ProbePair[]): string {
  if (!pairs.some(({ before, after }) => before.kind === 'unknown' || after.kind === 'unknown')) return '';
  return ' Unknown: a pair that reads kΩ before joining is one coil; its reading settles the rest.';
}

function kickTable(rows: readonly KickRow[]): HtmlNode {
  const point = (at: KickRow['red'] | KickRow['black']): readonly HtmlNode[] =>
    typeof at === 'string' ? [at] : [typed(at.what === 'lead' ? leadLetters(at.name) : at.name)];
  return section(
    table({
      caption: `Kick: ${KICK_MOTION}, ${KICK_METER}`,
      columns: ['red', 'black', 'over', 'approach', ['1', 'tick'], ['2', 'tick'], ['3', 'tick']],
      rows: rows.map(({ red, black, coil, approach }) => [
        rowHead(h('b', {}, ...point(red))),
        h('td', {}, ...point(black)),
        h('td', {}, typed(coil.name), ...(coil.below ? [', beneath: weak'] : [])),
        h('td', { class: 's' }, ...approachNodes(approach)),
        tickCell(),
        tickCell(),
        tickCell(),
      ]),
    }),
    h('p', { class: 'q' }, kickNote(rows)),
  );
}

const approachNodes = (approach: KickRow['approach']): readonly HtmlNode[] =>
  approach === undefined
    ? ['unknown']
    : [h('b', {}, approach > 0 ? '+' : '−'), approach > 0 ? ' positive' : ' negative'];

function kickNote(rows: readonly KickRow[]): string {
  if (rows.length === 0)
    return `Kick ${unknown('which leads belong to a coil; the meter finds them, then kick each')}.`;
  const plain = `${capital(KICK_READ)}.`;
  return rows.some(({ approach }) => approach === undefined)
    ? `${plain} Unknown: this kick settles it; write + or − and that it was the approach.`
    : plain;
}

function compassTable(quick: QuickEstimates): HtmlNode {
  const coils = compassCoils(quick);
  return section(
    table({
      caption: 'Compass, a few centimetres above',
      columns: ['poles of', 'draw', ['seen', 'tick']],
      rows: coils.map(({ coil, pole }) => [
        rowHead(h('b', {}, typed(coil.name))),
        h(
          'td',
          {},
          ...(pole === undefined
            ? ['unknown: write down which tip is drawn']
            : [`the ${seekingTip(poleOf(pole.sign))}: `, h('b', {}, upWords(poleOf(pole.sign)))]),
        ),
        tickCell(),
      ]),
    }),
  );
}

function inductanceTable(quick: QuickEstimates, bench: Bench | undefined, roomC: number): HtmlNode {
  const meter = inductanceMeter(quick, bench, roomC);
  const own = meter?.resonanceHz;
  const readings = INDUCTANCE_HZ.map((hz) => ({ hz, reading: told(meter?.at(hz)) }));
  const shown = readings.filter(({ hz, reading }) => reading || hz < ONLY_BELOW_RESONANCE_HZ);
  return section(
    table({
      caption: 'Inductance and Q, hot to ground',
      columns: ['at', 'L, H', ['read', 'box'], 'Q', ['read', 'box']],
      rows: shown.map(({ hz, reading }) => [
        h('th', { scope: 'row', class: 's' }, h('b', {}, printValue({ value: hz, dimension: 'frequency' }))),
        h('td', { class: 's' }, reading ? band(reading.inductanceH) : 'unknown'),
        boxCell(),
        h('td', { class: 's' }, reading ? band(reading.quality) : 'unknown'),
        boxCell(),
      ]),
    }),
    h('p', { class: 'q' }, inductanceNote(meter !== undefined, own, shown.length < readings.length)),
  );
}

/** Usual settings of bench meters. Common practice, no published source. */
const INDUCTANCE_HZ: readonly number[] = [120, 1000, 10_000];
const ONLY_BELOW_RESONANCE_HZ = 10_000;

function inductanceNote(known: boolean, own: Estimate | undefined, left: boolean): string {
  if (!known) return 'Unknown: bobbin, turns and wire, or one reading at 1 kHz settle it.';
  if (!left) return 'Series values, out of circuit.';
  return own
    ? `10 kHz is above or too near its own resonance, ${printValue({ ...own, dimension: 'frequency' })}: not read.`
    : '10 kHz is above or too near its own resonance: not read.';
}

/** A band as wide as its value tells nobody anything; it is left out. */
function told(reading: InductanceMeterReading | undefined): InductanceMeterReading | undefined {
  if (!reading) return undefined;
  const { inductanceH, quality } = reading;
  return [inductanceH, quality].every(({ value, sd }) => 4 * sd < value) ? reading : undefined;
}

/** Two standard deviations to either side, in the digits that they leave. */
function band({ value, sd }: Estimate): string {
  if (!Number.isFinite(value) || !Number.isFinite(sd)) return 'unknown';
  const low = Math.max(0, value - 2 * sd);
  const high = value + 2 * sd;
  const decimals = Math.min(2, Math.max(0, Math.ceil(-Math.log10(Math.max(high - low, high * 1e-3)) + 0.3)));
  return `${printNumber(low, decimals)} to ${printNumber(high, decimals)}`;
}

function fingers(pairs: readonly ProbePair[], bench: Bench | undefined): readonly string[] {
  const ohms = pairs.flatMap(({ before, after }) =>
    [before, after].flatMap((each) => (each.kind === 'resistance' ? [each.ohm.value] : [])),
  );
  if (ohms.length === 0)
    return ['Fingers off the probe tips: hands lie beside the coil and the reading comes out low.'];
  const highest = Math.max(...ohms);
  return [
    `Fingers off the probe tips: hands turn ${kiloohm(highest, bench)} into ${kiloohm(parallelOhm(highest, HANDS_OHM), bench)} kΩ.`,
  ];
}

function result(): readonly HtmlNode[] {
  return [
    h(
      'p',
      { class: 'result' },
      h('b', {}, 'Result'),
      ...tickBox('pass'),
      ...tickBox('repeat'),
      ...tickBox('fail, because'),
    ),
    h('p', { class: 'result' }, line(), ' signed ', line()),
  ];
}
