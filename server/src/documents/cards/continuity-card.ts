/** A wired instrument at the lugs: the order of soldering, what a meter finds joined in every position, what must stay silent. */
import type { InstrumentAnalysis } from '../../analysis/analysis-types.ts';
import { type WiredState, type WiredStates, wiredStates } from '../../estimates/switch-states.ts';
import type { Instrument, Position } from '../../model/instrument.ts';
import type { DeadCoil } from '../../physics/switching/meaning.ts';
import { GROUND, HOT } from '../../physics/switching/rig.ts';
import type { Language, PlainText } from '../../words/languages/language.ts';
import { titleOf } from '../../words/parts.ts';
import { type HtmlNode, h, rowHead, section, table, typed } from '../html.ts';
import { lugOf, solderingOrder } from '../soldering-order.ts';
import type { Card, CardSource } from './card.ts';
import { boxCell, cardWith, cautions, gapCell, mind, tickCell } from './frame.ts';
import { aboutInstrument } from './pickup-words.ts';
import { readingCells } from './position-table.ts';
import { leadNodes } from './swatch.ts';

/** `undefined` where no wiring is written, or not all of it is known. */
export function continuityCard(analysed: InstrumentAnalysis, source: CardSource): Card | undefined {
  const { written } = analysed;
  const { t } = source.setting;
  const states = wiredStates(written);
  if (!states || states.positions.length === 0) return undefined;
  const bench = { states, instrument: written, t };
  return cardWith(
    {
      kind: 'continuity',
      of: [written.name],
      title: `${t('Continuity')}: ${titleOf(written)}`,
      about: [...aboutInstrument(written, t), t('lug by lug, in every position')],
      atRoom: true,
      findings: analysed.findings,
    },
    source.setting,
    solderTable(bench),
    lugTable(bench, analysed, source),
    silentPairs(bench),
    coilTable(bench),
    mind(t, [
      t('Nothing plugged in, controls full up, meter on continuity: under some ohms it sounds.'),
      t('Lugs with nothing on them are left out.'),
      ...cautions(t, 'solder'),
    ]),
  );
}

interface Bench {
  readonly states: WiredStates;
  readonly instrument: Instrument;
  readonly t: Language;
}

function solderTable({ states, instrument, t }: Bench): HtmlNode {
  const rows = solderingOrder(states.numbered.rig, instrument);
  const half = Math.ceil(rows.length / 2);
  const cells = (row: (typeof rows)[number] | undefined): readonly HtmlNode[] =>
    row
      ? [
          h('td', {}, ...terminalNodes(row.from, instrument, t)),
          h('td', {}, ...terminalNodes(row.to, instrument, t)),
          tickCell(),
        ]
      : [h('td', {}, ''), h('td', {}, ''), h('td', {}, '')];
  const heads = [t('solder'), t('onto'), [t('done'), 'tick'] as const] as const;
  return table({
    caption: t('Joints, in this order: jumpers, commons, leads, grounds'),
    columns: [...heads, gapCell(), ...heads],
    rows: rows.slice(0, half).map((row, index) => [...cells(row), gapCell(), ...cells(rows[half + index])]),
  });
}

/** A lead beside its swatch and the place of its pickup; a lug by its name. */
function terminalNodes(terminal: string, instrument: Instrument, t: Language): readonly HtmlNode[] {
  const [owner = '', ...rest] = terminal.split('.');
  if (terminal === HOT || terminal === GROUND) return [t(terminal === HOT ? 'hot' : 'ground')];
  const slot = instrument.slots.find(({ name }) => name === owner);
  return slot ? [...leadNodes(rest.join('.'), 'lead', t), ' ', typed(owner)] : [h('b', {}, typed(terminal))];
}

function lugTable(
  { states, instrument, t }: Bench,
  analysed: InstrumentAnalysis,
  { analysis, setting }: CardSource,
): HtmlNode {
  return h(
    'section',
    { class: 'long' },
    table({
      caption: t('Lugs that a meter finds joined, and kΩ between hot and ground'),
      columns: [
        [t('position'), undefined, 2],
        t('joined to hot'),
        t('joined to ground'),
        [t('expected'), 'n'],
        t('passes'),
        [t('read'), 'box'],
        [t('beeps'), 'tick'],
      ],
      rows: inOrder(states).map(({ position, state }) => [
        rowHead(h('b', {}, position.key.value)),
        h('td', {}, typed(position.title ?? '')),
        ...[HOT, GROUND].map((end) => h('td', {}, typed(lugsWith(end, state, states, instrument)))),
        ...readingCells(analysed, instrument.positions.indexOf(position), analysis.bench, setting),
        boxCell(),
        tickCell(),
      ]),
    }),
  );
}

/** Positions that have a state, each with it. */
const inOrder = ({
  states,
  positions,
}: WiredStates): readonly { readonly position: Position; readonly state: WiredState }[] =>
  positions.flatMap(({ position }) => {
    const state = states.find((each) => each.positions.includes(position));
    return state ? [{ position, state }] : [];
  });

/** With several switches each lug by its switch. */
function lugsWith(end: string, { meaning }: WiredState, states: WiredStates, instrument: Instrument): string {
  const lugs = usedLugs(states, instrument).filter((lug) => meaning.netOf(lug) === meaning.netOf(end));
  return lugs.map((lug) => shortName(lug, instrument)).join(' ');
}

const shortName = (lug: string, { switches }: Instrument): string =>
  switches.length === 1 ? lug.slice(lug.indexOf('.') + 1) : lug;

const usedLugs = ({ numbered: { rig } }: WiredStates, instrument: Instrument): readonly string[] => {
  const isLug = lugOf(instrument);
  const soldered = new Set([...rig.links, ...rig.elements.map(({ ends }) => ends)].flat().filter(isLug));
  return rig.switches.flatMap(({ slot, contacts }) =>
    contacts.lugs.map((lug) => `${slot}.${lug}`).filter((terminal) => soldered.has(terminal)),
  );
};

/** Hot and ground, and neighbours in a row that no position joins: a bridge of solder between them is heard as one beep too many. */
function silentPairs({ states, instrument, t }: Bench): HtmlNode {
  const used = new Set(usedLugs(states, instrument));
  const shown = inOrder(states);
  const isEverJoined = (a: string, b: string) =>
    shown.some(({ state: { meaning } }) => meaning.netOf(a) === meaning.netOf(b));
  const neighbours = instrument.switches.flatMap(({ name, part }) =>
    (part?.rows ?? []).flatMap((row) => {
      const lugs = row.map((lug) => `${name}.${lug}`).filter((lug) => used.has(lug));
      return lugs.slice(1).flatMap((lug, index) => {
        const pair = [lugs[index] ?? '', lug] as const;
        return isEverJoined(...pair) ? [] : [pair];
      });
    }),
  );
  const pairs = [
    ...(isEverJoined(HOT, GROUND) ? [] : [t('hot to ground')]),
    ...neighbours.map((pair) => pair.map((lug) => shortName(lug, instrument)).join(' – ')),
  ];
  return pairs.length === 0
    ? ''
    : h('p', {}, h('b', {}, t('Must stay silent in every position:')), ' ', typed(pairs.join(', ')), '.');
}

function coilTable({ states, t }: Bench): HtmlNode {
  return section(
    table({
      caption: t('Coils that do not sound, as the switch leaves them'),
      columns: [t('position'), t('coils')],
      rows: inOrder(states).map(({ position, state }) => [
        rowHead(h('b', {}, position.key.value)),
        h('td', {}, ...coilNodes(state, t)),
      ]),
    }),
  );
}

function coilNodes({ meaning: { dead } }: WiredState, t: Language): readonly HtmlNode[] {
  if (dead.size === 0) return [t('none')];
  const alike = new Map<string, string[]>();
  for (const [coil, { closed, on }] of dead) {
    const left = `${t(CLOSED[closed])} ${t(ON[on])}`;
    alike.set(left, [...(alike.get(left) ?? []), coil]);
  }
  return [...alike].flatMap(([left, coils], index) => [index > 0 ? '; ' : '', `${left}: `, typed(coils.join(', '))]);
}

const CLOSED: Readonly<Record<DeadCoil['closed'], PlainText>> = {
  shorted: 'shorted',
  looped: 'in a ring',
  open: 'open',
};
const ON: Readonly<Record<DeadCoil['on'], PlainText>> = {
  ground: 'on ground',
  hot: 'on hot',
  link: 'on an inner joint',
  none: 'in the air',
};
