import type { Language } from '../../words/languages/language.ts';
import {
  type Block,
  type DrawingWidth,
  drawing,
  type FactTable,
  FRAMES,
  paragraphs,
  part,
  rule,
  sheetHead,
} from '../drawing-sheet.ts';
import { wordsAt } from '../labels.ts';
import { circle, d, path, rect, type SvgNode } from '../svg.ts';
import { wrapText } from '../text-width.ts';
import { controlWords } from './control-pictures.ts';
import { drawControls } from './draw-controls.ts';
import { drawPickups } from './draw-pickups.ts';
import { drawBus, drawSelector } from './draw-selector.ts';
import { hasHighTone, layOut, TONE_HEIGHT } from './layout.ts';
import type { Metrics } from './metrics.ts';
import { metricsOf } from './metrics-of.ts';
import type { ControlPicture, FactsPicture, InstrumentPicture, Schematic } from './schematic-picture.ts';
import { jackAt, trackEnd } from './schematic-symbols.ts';

/** The schematic as a picture: the same input gives the same bytes. */
export function instrumentDiagram(picture: InstrumentPicture, size: DrawingWidth): string {
  const frame = FRAMES[size];
  const head = sheetHead(picture, frame);
  const nodes: SvgNode[] = [...head.nodes, rule(frame, head.bottom + 6)];
  let y = head.bottom + 6;
  let key: Block = { nodes: [], bottom: 0 };
  picture.sections.forEach((section, index) => {
    const metrics = metricsOf(section, size);
    if (index > 0) nodes.push(rule(frame, y));
    const drawn = drawSchematic(section, metrics, y + 24, picture.t);
    nodes.push(...drawn.nodes);
    const isLast = index === picture.sections.length - 1;
    key = isLast ? drawKey(picture, metrics, size === 'wide' ? drawn.controlsBottom + 44 : drawn.bottom + 28) : key;
    y = drawn.bottom + 28;
  });
  return drawing(picture, size, Math.ceil(Math.max(y, key.bottom + 24)), [...nodes, ...key.nodes]);
}

/** The same as rows: what each contact joins and the positions that close it, or the coils of each position; then the controls. */
export function instrumentTable(picture: InstrumentPicture): FactTable {
  const { t } = picture;
  const rows = picture.sections.flatMap((section) =>
    section.pickups.flatMap(({ coils, nodes, slot, resistance, unknown }) => [
      ...(unknown === undefined ? [] : [[section.liveKey ?? '', slot, unknown]]),
      ...coils.map((coil) => [
        section.liveKey ?? '',
        coil.id.replace('.', ' '),
        coil.symbol
          ? `${coil.name}, ${t(coil.live ? 'carries signal' : 'silent')}`
          : `${coil.turns}, ${t(coil.live ? 'sounds' : 'silent')}; ${t('pickup {0}', resistance)}`,
      ]),
      ...[...nodes.values()].flatMap(({ exits }) =>
        exits.flatMap(({ contact }) =>
          contact === undefined
            ? []
            : [
                [
                  section.liveKey ?? '',
                  t('contact'),
                  `${contact.title}${contact.closedNow ? `, ${t('closed now')}` : ''}`,
                ],
              ],
        ),
      ),
    ]),
  );
  const [any] = picture.sections;
  const controls = [
    ...(any?.pickups ?? []).flatMap(({ slot, own }) => (own?.controls ?? []).map((each) => [slot, each] as const)),
    ...(any?.controls ?? []).map((each) => [t('all'), each] as const),
  ].map(([slot, control]) => ['', slot, controlWords(control, t)]);
  return { caption: picture.name, columns: [t('position'), t('part'), t('what')], rows: [...rows, ...controls] };
}

interface SectionDrawn extends Block {
  readonly controlsBottom: number;
}

function drawSchematic(section: Schematic, metrics: Metrics, top: number, t: Language): SectionDrawn {
  const facts = section.facts === undefined ? { nodes: [], bottom: top } : drawFacts(section.facts, metrics, top, t);
  const firstRow = (metrics.below ? facts.bottom + 24 : top) + (section.keys.length > 0 ? 46 : 16);
  const layout = layOut(section, firstRow, metrics.ownBeside);
  const selector = drawSelector(layout, section, metrics, t);
  const room = (hasHighTone(section.controls) ? TONE_HEIGHT : 20) + 24;
  const line = metrics.below ? layout.bottom + room - 8 : lineHeight(selector.busRows, facts.bottom + room);
  const controls = drawControls(section.controls, {
    columns: metrics.controls,
    line,
    feed: metrics.bus,
    live: section.sounds,
    t,
  });
  const own = layout.pickups.flatMap(({ block, ownLine }) =>
    block.own === undefined || ownLine === undefined
      ? []
      : drawControls(block.own.controls, {
          columns: metrics.own,
          line: ownLine,
          feed: metrics.second,
          live: block.own.live,
          owner: block.slot,
          t,
        }).nodes,
  );
  const jackX = metrics.controls.end;
  return {
    nodes: [
      ...facts.nodes,
      ...selector.nodes,
      ...drawBus(selector.busRows, line, metrics.bus, section.sounds),
      ...controls.nodes,
      ...own,
      part(
        'jack',
        t('Output jack'),
        ...jackAt(jackX, controls.outY, section.sounds),
        wordsAt(t('jack'), jackX + 2, controls.outY - 20, { size: 14 }),
      ),
      ...drawPickups(layout.pickups, section, metrics, selector.uprights, t),
    ],
    bottom: Math.max(layout.bottom, controls.bottom, controls.outY + 62, facts.bottom),
    controlsBottom: Math.max(controls.bottom, controls.outY + 62),
  };
}

/** The row nearest to the middle of the bus goes straight on, if it leaves room above. */
function lineHeight(rows: readonly { readonly y: number }[], least: number): number {
  const heights = rows.map(({ y }) => y);
  const middle = (Math.min(...heights) + Math.max(...heights)) / 2;
  const fit = heights.filter((y) => y >= least).sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle));
  return fit[0] ?? least;
}

function drawFacts(
  { key, heading, rows }: FactsPicture,
  { facts: [left, right] }: Metrics,
  top: number,
  t: Language,
): Block {
  const nodes: SvgNode[] = [];
  let y = top + 22;
  for (const line of wrapText(heading, right - left, { size: 14, bold: true }).slice(0, 2)) {
    nodes.push(wordsAt(line, left, y, { size: 14 }));
    y += 18;
  }
  y -= 10;
  nodes.push(path('hair', d`M${left} ${y}H${right}`));
  for (const { name, value, number } of rows) {
    const size = number ? 14 : 12;
    // Sentences may take two lines, numbers never do.
    const lines = wrapText(value, right - left - (number ? 120 : 70), { size, bold: true }).slice(0, 2);
    nodes.push(wordsAt(name, left, y + 16));
    for (const [index, text] of lines.entries())
      nodes.push(wordsAt(text, right, y + 16 + 16 * index, { bold: true, anchor: 'end', size }));
    y += 22 + 16 * Math.max(lines.length - 1, 0);
    nodes.push(path('hair', d`M${left} ${y}H${right}`));
  }
  return { nodes: [part(`position:${key}`, t('Position {0}', heading.replace(' · ', ', ')), ...nodes)], bottom: y };
}

const controlsOf = ({ controls, pickups }: Schematic): readonly ControlPicture[] => [
  ...pickups.flatMap(({ own }) => own?.controls ?? []),
  ...controls,
];

const hasCutTrack = ({ sections }: InstrumentPicture): boolean =>
  sections.some((section) => controlsOf(section).some((each) => each.kind === 'tone' && each.isNoLoad));

function drawKey(picture: InstrumentPicture, { facts: [left, right], below }: Metrics, top: number): Block {
  const { t } = picture;
  const hasContacts = picture.sections.some(({ keys }) => keys.length > 0);
  const cellsAt = top + (hasCutTrack(picture) ? 90 : 66);
  const lines: readonly (readonly [words: string, mark: readonly SvgNode[]])[] = [
    [t('live in this position'), [path('on', d`M${left + 2} ${top}h30`)]],
    [t('joined, carries no signal in this position'), [path('off', d`M${left + 2} ${top + 24}h30`)]],
    [t('start of the coil'), [circle('solid', left + 17, top + 48, 2.6)]],
    ...(hasCutTrack(picture) ? [[t('no-load: cut off at 10'), trackEnd(left + 17, top + 72, false)] as const] : []),
    ...(hasContacts
      ? [
          [
            t('the contact is closed in that position'),
            [rect('cellon', left + 2, cellsAt, 12, 12), rect('celln', left + 20, cellsAt, 12, 12)],
          ] as const,
        ]
      : []),
  ];
  const words = lines.map(([text], index) => wordsAt(text, left + 48, top + 4 + 24 * index, { quiet: true }));
  const note = t('The earth symbols are one node: jack sleeve, pot cases, shields. Joined at one point.');
  const foot = paragraphs([note], { x: left, y: top + 24 * lines.length + 12, width: right - left - (below ? 0 : 8) });
  return {
    nodes: [part('key', t('Key'), ...lines.flatMap(([, mark]) => mark), ...words), ...foot.nodes],
    bottom: foot.bottom,
  };
}
