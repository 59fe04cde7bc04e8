/** The wax bath: mix and masses, set point and ceiling, times, and everything that keeps it from burning. */

import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import { told } from '../../estimates/coil-winding.ts';
import { bathC, bathLimits, sharesTogether, suggestedBathC, waxMasses } from '../../estimates/potting.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import type { Pickup } from '../../model/pickup.ts';
import type { Potting } from '../../model/potting.ts';
import { printCelsius, printNumber, printValue } from '../../quantities/print.ts';
import { cautionsOf } from '../../words/cautions.ts';
import { PLASTIC_WORDS } from '../../words/parts.ts';
import { type HtmlNode, h, rowHead, section, table, typed } from '../html.ts';
import type { Card, CardSource } from './card.ts';
import { boxCell, cardWith, fields, gapCell, mind, ohmCells, pickupHead, tickCell, unknown } from './frame.ts';
import { inRoom, written } from './numbers.ts';

export function pottingCard(analysed: PickupAnalysis, potting: Potting, { analysis, setting }: CardSource): Card {
  const { pickup } = analysed;
  const limits = bathLimits(pickup);
  const ceiling = limits[0];
  const set = bathC(potting);
  return cardWith(
    pickupHead(analysed, 'potting', 'Potting'),
    setting,
    fields(
      [
        {
          label: 'set point',
          value: h(
            'span',
            { class: 'big' },
            set === undefined ? `${printCelsius(suggestedBathC(pickup))}, proposed` : printCelsius(set),
          ),
        },
        {
          label: 'never above',
          value: [
            h('span', { class: 'big' }, ceiling ? printCelsius(ceiling.limitC) : 'unknown'),
            ...(set !== undefined && ceiling && set > ceiling.limitC ? [' the set point is above it'] : []),
          ],
        },
        {
          label: 'soak, until bubbles stop',
          value: h('span', { class: 'big' }, written(potting.soak?.value, 3) ?? '10 to 20\u202Fmin'),
        },
      ],
      'key f3',
    ),
    fields([
      { label: 'thermometer, which' },
      { label: 'reads in the bath, °C' },
      { label: 'into the bath at' },
      { label: 'out of the bath at' },
      { label: 'plastic', value: plasticText(pickup) },
      { label: 'enamel', value: enamelText(pickup) },
      { label: 'left to cool until' },
      { label: 'date, hand' },
    ]),
    mixTable(potting),
    limitTable(limits),
    readingTable(quickOf(analysis.bench)(pickup), { analysis, setting }),
    mind(cautionsOf('wax')),
  );
}

function plasticText({ coils }: Pickup): string {
  const words = new Set(coils.flatMap(({ bobbin }) => (bobbin?.plastic ? [PLASTIC_WORDS[bobbin.plastic.value]] : [])));
  return words.size > 0 ? [...words].join(', ') : unknown('try a scrap bobbin first');
}

function enamelText({ coils }: Pickup): string {
  const words = new Set(coils.flatMap(({ wire }) => wire?.enamel?.value.replaceAll('-', ' ') ?? []));
  return words.size > 0 ? [...words].join(', ') : 'unknown';
}

function mixTable(potting: Potting): HtmlNode {
  const parts = potting.wax?.value ?? [];
  if (parts.length === 0)
    return h(
      'p',
      {},
      `The mix is ${unknown('about four parts paraffin to one of beeswax is usual; write down what was used')}.`,
    );
  const masses = waxMasses(potting);
  const together = sharesTogether(potting);
  return section(
    table({
      className: 'half',
      caption: `Mix${potting.batch ? `, batch of ${written(potting.batch.value)}` : ''}`,
      columns: ['wax', ['share', 'n'], ['weigh out', 'n'], ['weighed, g', 'box']],
      rows: parts.map(({ ingredient, share }, index) => {
        const mass = masses[index]?.massKg;
        return [
          rowHead(h('b', {}, typed(ingredient))),
          h('td', { class: 'n' }, `${printNumber(share * 100, 0)}\u202F%`),
          h('td', { class: 'n x' }, mass ? printValue({ value: mass.value, dimension: 'mass' }) : 'batch unknown'),
          boxCell(),
        ];
      }),
    }),
    ...(Math.abs(together - 1) > 0.005
      ? [
          h(
            'p',
            { class: 'warn' },
            `The shares come to ${printNumber(together * 100, 0)}\u202F%, not 100: settle the mix first.`,
          ),
        ]
      : []),
  );
}

function limitTable(limits: ReturnType<typeof bathLimits>): HtmlNode {
  return section(
    table({
      caption: 'What limits the bath',
      columns: [['below', 'n'], 'because'],
      rows: limits.map(({ limitC, words }) => [
        h('th', { scope: 'row', class: 'n' }, h('b', {}, printCelsius(limitC))),
        h('td', {}, words),
      ]),
    }),
  );
}

function readingTable(quick: QuickEstimates, { analysis: { bench }, setting: { roomC } }: CardSource): HtmlNode {
  const rows = [
    ...[...quick.windings].map(([coil, winding]) => ({
      name: `${coil.name} coil`,
      at20C: told(winding).resistance20COhm,
    })),
    ...(quick.netlist.pickup.coils.length > 1 ? [{ name: 'hot to ground', at20C: quick.resistance20COhm }] : []),
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
      caption: `Before and after, at ${printCelsius(roomC)}, kΩ`,
      columns: [
        'between',
        ['expected', 'n'],
        'passes',
        ['before', 'box'],
        gapCell(),
        ['after', 'box'],
        ['good', 'tick'],
      ],
      rows: [
        ...rows.map(({ name, at20C }) => {
          if (!at20C) return blankRow(name, at20C === null ? 'open' : 'unknown');
          return row(h('b', {}, typed(name)), ...ohmCells(inRoom(at20C, roomC), bench));
        }),
        blankRow('leads to cover and baseplate', 'over 20 MΩ or as joined'),
        blankRow('kick at each coil', 'as before'),
        blankRow('tap with a fingernail at the amplifier', 'quieter'),
      ],
    }),
    h('p', { class: 'q' }, 'After: only when it is as cool as the room; 5\u202F°C reads 2\u202F% high.'),
  );
}
