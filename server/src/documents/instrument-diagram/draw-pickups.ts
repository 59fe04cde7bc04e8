/** Coils of the pickups with their words, and the rows that lead from them to the selector. */

import { poleLetter, polesWords } from '../../words/directions.ts';
import type { Language } from '../../words/languages/language.ts';
import { part } from '../drawing-sheet.ts';
import { type Box, wherePossible, wordsAt } from '../labels.ts';
import { d, path, type SvgNode } from '../svg.ts';
import { pole } from '../symbols.ts';
import { fitText } from '../text-width.ts';
import { columnsRight, type PickupPlace } from './layout.ts';
import type { Metrics } from './metrics.ts';
import type { CoilBlock, NodePicture, Schematic } from './schematic-picture.ts';
import { COIL_LENGTH, standingCoil, standingPart, weight } from './schematic-symbols.ts';

export function drawPickups(
  places: readonly PickupPlace[],
  schematic: Schematic,
  metrics: Metrics,
  uprights: readonly Box[],
  t: Language,
): readonly SvgNode[] {
  return places.map((place) => drawPickup(place, schematic, metrics, uprights, t));
}

function drawPickup(
  { block, y, coils, rows }: PickupPlace,
  { keys }: Schematic,
  metrics: Metrics,
  uprights: readonly Box[],
  t: Language,
): SvgNode {
  const nameRoom = metrics.coilWords - metrics.name;
  const room = keys.length === 0 ? 150 : columnsRight(metrics, keys.length).left - metrics.lead - 8;
  const labels = rows
    .filter(({ main, node, foot }) => {
      const exits = block.nodes.get(node)?.exits ?? [];
      return main && exits.some(({ to, contact }) => contact !== undefined || to !== 'earth' || !foot);
    })
    .flatMap(({ node, y: at }) => leadLabel(block.nodes.get(node), { x: metrics.lead + 4, y: at - 8, room }, uprights));
  return part(
    `pickup:${block.slot}`,
    block.unknown ??
      (block.isPart
        ? [block.slot, block.resistance].filter(Boolean).join(', ')
        : t('{0} pickup, {1}', block.slot, block.resistance)),
    wordsAt(fitText(block.slot, nameRoom - 4, { size: 14, bold: true }), metrics.name, y + 4, { size: 14 }),
    ...(block.resistance === '' ? [] : [wordsAt(block.resistance, metrics.name, y + 20, { quiet: true })]),
    ...(block.unknown === undefined
      ? []
      : [wordsAt(fitText(block.unknown, 300, { size: 12 }), metrics.name, y + 22, { quiet: true })]),
    ...coils.map(({ coil, top }) => drawCoil(coil, top, metrics, t)),
    ...labels,
  );
}

function drawCoil(coil: CoilBlock, top: number, metrics: Metrics, t: Language): SvgNode {
  if (coil.symbol) return drawPart(coil, coil.symbol, top, metrics, t);
  const facts = [coil.turns, polesWords(coil.polarity, t), ...(coil.live ? [t('sounds')] : [])];
  const words = t('{0} coil, {1}', coil.id.replace('.', ' '), facts.join(', '));
  const room = metrics.coilWords - metrics.name;
  const letter = coil.polarity === undefined ? '?' : poleLetter(coil.polarity);
  return part(
    `coil:${coil.id}`,
    words,
    path(weight(coil.live), d`M${metrics.coil} ${top - 10}V${top}M${metrics.coil} ${top + COIL_LENGTH}v10`),
    ...standingCoil(metrics.coil, top, coil.live, coil.startAt),
    ...pole(metrics.pole, top + 36, 7, coil.polarity),
    wordsAt(letter, metrics.pole + 13, top + 40, { bold: true }),
    wordsAt(fitText(coil.name, room, { size: 12, bold: true }), metrics.coilWords, top + 32, {
      bold: coil.live,
      anchor: 'end',
    }),
    wordsAt(coil.turns, metrics.coilWords, top + 48, { quiet: true, anchor: 'end' }),
  );
}

function drawPart(
  { id, name, live }: CoilBlock,
  symbol: 'resistor' | 'capacitor',
  top: number,
  { coil, coilWords, name: left }: Metrics,
  t: Language,
): SvgNode {
  return part(
    `part:${id}`,
    `${name}, ${t(live ? 'carries signal' : 'silent')}`,
    path(weight(live), d`M${coil} ${top - 10}V${top}M${coil} ${top + COIL_LENGTH}v10`),
    ...standingPart(symbol, coil, top, live),
    wordsAt(fitText(name, coilWords - left, { size: 12, bold: true }), coilWords, top + 40, {
      bold: live,
      anchor: 'end',
    }),
  );
}

/** The leads by their letters; their names where there is room. */
function leadLabel(
  node: NodePicture | undefined,
  { x, y, room }: { readonly x: number; readonly y: number; readonly room: number },
  uprights: readonly Box[],
): readonly SvgNode[] {
  if (node === undefined || node.label.length === 0) return [];
  const [letters, name] = node.label;
  const short = [{ text: fitText(letters?.text ?? '', room, { size: 12, bold: true }), bold: true }];
  const whole = fitText(`${letters?.text ?? ''}${name?.text ?? ''}`, room, { size: 12, bold: true }).endsWith('…')
    ? []
    : [node.label];
  return wherePossible([{ wordings: [...whole, short], spots: [{ x, y, anchor: 'start' }], rank: 0 }], uprights);
}
