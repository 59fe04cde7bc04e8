/** The wax bath: mix and masses, set point and ceiling, times, and everything that keeps it from burning. */

import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import { told } from '../../estimates/coil-winding.ts';
import { bathC, bathLimits, sharesTogether, suggestedBathC, waxMasses } from '../../estimates/potting.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import type { Pickup } from '../../model/pickup.ts';
import type { Potting } from '../../model/potting.ts';
import { printCelsius, printNumber, printValue } from '../../quantities/print.ts';
import { bathLimitWords } from '../../words/bath-limits.ts';
import type { Language } from '../../words/languages/language.ts';
import { PLASTIC_WORDS } from '../../words/parts.ts';
import { type HtmlNode, h, rowHead, section, table, typed } from '../html.ts';
import type { Card, CardSource } from './card.ts';
import {
  boxCell,
  cardWith,
  cautions,
  fields,
  gapCell,
  mind,
  ohmCells,
  pickupHead,
  tickCell,
  unknown,
} from './frame.ts';
import { inRoom, written } from './numbers.ts';

export function pottingCard(analysed: PickupAnalysis, potting: Potting, { analysis, setting }: CardSource): Card {
  const { pickup } = analysed;
  const { t } = setting;
  const degrees = (each: number) => printCelsius(each, t.numbers);
  const limits = bathLimits(pickup);
  const ceiling = limits[0];
  const set = bathC(potting);
  return cardWith(
    pickupHead(analysed, 'potting', t('Potting'), t),
    setting,
    fields(
      [
        {
          label: t('set point'),
          value: h(
            'span',
            { class: 'big' },
            set === undefined ? t('{0}, proposed', degrees(suggestedBathC(pickup))) : degrees(set),
          ),
        },
        {
          label: t('never above'),
          value: [
            h('span', { class: 'big' }, ceiling ? degrees(ceiling.limitC) : t('unknown')),
            ...(set !== undefined && ceiling && set > ceiling.limitC ? [` ${t('the set point is above it')}`] : []),
          ],
        },
        {
          label: t('soak, until bubbles stop'),
          value: h(
            'span',
            { class: 'big' },
            written(potting.soak?.value, t, 3) ?? t('{0} to {1}', '10', '20\u202Fmin'),
          ),
        },
      ],
      'key f3',
    ),
    fields([
      { label: t('thermometer, which') },
      { label: t('reads in the bath, °C') },
      { label: t('into the bath at') },
      { label: t('out of the bath at') },
      { label: t('plastic'), value: plasticText(pickup, t) },
      { label: t('enamel'), value: enamelText(pickup, t) },
      { label: t('left to cool until') },
      { label: t('date, hand') },
    ]),
    mixTable(potting, t),
    limitTable(limits, t),
    readingTable(quickOf(analysis.bench)(pickup), { analysis, setting }),
    mind(t, cautions(t, 'wax')),
  );
}

function plasticText({ coils }: Pickup, t: Language): string {
  const words = new Set(
    coils.flatMap(({ bobbin }) => (bobbin?.plastic ? [t(PLASTIC_WORDS[bobbin.plastic.value])] : [])),
  );
  return words.size > 0 ? [...words].join(', ') : unknown('try a scrap bobbin first', t);
}

function enamelText({ coils }: Pickup, t: Language): string {
  const words = new Set(
    coils.flatMap(({ wire }) => (wire?.enamel ? [t.word(wire.enamel.value).replaceAll('-', ' ')] : [])),
  );
  return words.size > 0 ? [...words].join(', ') : t('unknown');
}

function mixTable(potting: Potting, t: Language): HtmlNode {
  const parts = potting.wax?.value ?? [];
  if (parts.length === 0)
    return h(
      'p',
      {},
      t('The mix is unknown: about four parts paraffin to one of beeswax is usual; write down what was used.'),
    );
  const masses = waxMasses(potting);
  const together = sharesTogether(potting);
  return section(
    table({
      className: 'half',
      caption: potting.batch ? t('Mix, batch of {0}', written(potting.batch.value, t) ?? '') : t('Mix'),
      columns: [t('wax'), [t('share'), 'n'], [t('weigh out'), 'n'], [t('weighed, g'), 'box']],
      rows: parts.map(({ ingredient, share }, index) => {
        const mass = masses[index]?.massKg;
        return [
          rowHead(h('b', {}, typed(t.word(ingredient)))),
          h('td', { class: 'n' }, `${printNumber(share * 100, 0)}\u202F%`),
          h(
            'td',
            { class: 'n x' },
            mass ? printValue({ value: mass.value, dimension: 'mass', style: t.numbers }) : t('batch unknown'),
          ),
          boxCell(),
        ];
      }),
    }),
    ...(Math.abs(together - 1) > 0.005
      ? [
          h(
            'p',
            { class: 'warn' },
            t('The shares come to {0}, not 100: settle the mix first.', `${printNumber(together * 100, 0)}\u202F%`),
          ),
        ]
      : []),
  );
}

function limitTable(limits: ReturnType<typeof bathLimits>, t: Language): HtmlNode {
  return section(
    table({
      caption: t('What limits the bath'),
      columns: [[t('below'), 'n'], t('because')],
      rows: limits.map((limit) => [
        h('th', { scope: 'row', class: 'n' }, h('b', {}, printCelsius(limit.limitC, t.numbers))),
        h('td', {}, bathLimitWords(limit, t)),
      ]),
    }),
  );
}

function readingTable(quick: QuickEstimates, { analysis: { bench }, setting: { roomC, t } }: CardSource): HtmlNode {
  const rows = [
    ...[...quick.windings].map(([coil, winding]) => ({
      name: t('{0} coil', coil.name),
      at20C: told(winding).resistance20COhm,
    })),
    ...(quick.netlist.pickup.coils.length > 1 ? [{ name: t('hot to ground'), at20C: quick.resistance20COhm }] : []),
  ];
  const row = (name: HtmlNode, ...expected: readonly HtmlNode[]): readonly HtmlNode[] => [
    rowHead(name),
    ...expected,
    boxCell(),
    gapCell(),
    boxCell(),
    tickCell(),
  ];
  const blankRow = (name: string, expected: string) => row(name, h('td', { class: 'n q' }, expected), h('td', {}));
  return section(
    table({
      caption: t('Before and after, at {0}, kΩ', printCelsius(roomC, t.numbers)),
      columns: [
        t('between'),
        [t('expected'), 'n'],
        t('passes'),
        [t('before'), 'box'],
        gapCell(),
        [t('after'), 'box'],
        [t('good'), 'tick'],
      ],
      rows: [
        ...rows.map(({ name, at20C }) => {
          if (!at20C) return blankRow(name, t(at20C === null ? 'open' : 'unknown'));
          return row(h('b', {}, typed(name)), ...ohmCells(inRoom(at20C, roomC), bench, t));
        }),
        blankRow(t('leads to cover and baseplate'), t('over 20 MΩ or as joined')),
        blankRow(t('kick at each coil'), t('as before')),
        blankRow(t('tap with a fingernail at the amplifier'), t('quieter')),
      ],
    }),
    h('p', { class: 'q' }, t('After: only when it is as cool as the room; 5\u202F°C reads 2\u202F% high.')),
  );
}
