/** What the drawing of a wired instrument's switches shows. */
import { colourOf } from '../../../../grammar/values/iec60757.ts';
import type { Analysis, InstrumentAnalysis } from '../../analysis/analysis-types.ts';
import { type WiredState, type WiredStates, wiredStates } from '../../estimates/switch-states.ts';
import type { SwitchSlot } from '../../model/wiring.ts';
import { ENGLISH, type Language } from '../../words/languages/language.ts';
import { titleOf } from '../../words/parts.ts';
import { positionTitle } from '../../words/selections.ts';
import { contactWords, deadWords, heardWords, notAskedWords, stateWords } from '../../words/switch-words.ts';
import { list } from '../../words/text.ts';
import type { LeadLook } from '../symbols.ts';
import { type Move, mendingOf } from './mending.ts';
import type { EntryPicture, NetPicture, StateRow, SwitchBody, SwitchPicture } from './picture.ts';

/** `live`: key of the position shown; the first where none is named. `undefined` where no wiring is written, or not all of it is known. */
export function switchPicture(
  analysis: Analysis,
  analysed: InstrumentAnalysis,
  live?: string,
  t = ENGLISH,
): SwitchPicture | undefined {
  const { written, findings } = analysed;
  const states = wiredStates(written);
  const shown = states && (stateAt(states, live) ?? states.states[0]);
  if (!states || !shown || written.switches.length === 0) return undefined;
  const title = titleOf(written);
  const closed = contactWords(shown, written, t);
  const heard = heardWords(shown, t);
  const at = stateWords(written, shown.state);
  const [position] = shown.positions;
  const wrong = findings.filter(({ code, severity }) => code.startsWith('switch/') && severity === 'error');
  const mending = mendingOf(analysis, analysed);
  const moves = mending?.moves ?? [];
  const toMove = new Set(
    mending ? moves.map(({ terminal }) => terminal) : wrong.flatMap(({ subject }) => subject.nodes ?? []),
  );
  return {
    id: `switch-${written.name}`,
    t,
    title: t(written.switches.length === 1 ? '{0}: its switch' : '{0}: its switches', title),
    subtitle: t(
      'seen from the soldering side; {0}: {1}',
      [...(position ? [t('position {0}', position.key.value)] : []), at].join(', '),
      heard,
    ),
    name: t('Switches of {0}, lug by lug', title),
    mending: mending && t('Dashed, as it would be mended: {0}.', mending.title.replaceAll('`', '')),
    description: [
      t('In {0} the contacts join {1}; heard is {2}.', at, closed, heard),
      ...states.states.map((each) => `${stateWords(written, each.state)}: ${heardWords(each, t)}.`),
    ].join(' '),
    bodies: written.switches.map((each) => bodyOf(each, { shown, states, toMove, moves, t })),
    states: [...states.states]
      .sort(byPosition)
      .slice(0, MOST_ROWS)
      .map((each) => rowOf(each, states, each === shown, t)),
  };
}

/** A page holds no more; the command line lists all. */
const MOST_ROWS = 24;

/** Positions in their order, then states that no position names. */
const byPosition = (a: WiredState, b: WiredState): number => keyOf(a) - keyOf(b);
const keyOf = ({ positions: [first] }: WiredState): number =>
  first ? Number(first.key.value) : Number.MAX_SAFE_INTEGER;

const stateAt = ({ states }: WiredStates, live: string | undefined): WiredState | undefined =>
  states.find(({ positions }) => positions.some(({ key }) => live === undefined || key.value === live));

function rowOf(state: WiredState, states: WiredStates, isLive: boolean, t: Language): StateRow {
  const { instrument } = states;
  const [first] = state.positions;
  return {
    part: first && `position:${first.key.value}`,
    state: stateWords(instrument, state.state),
    position: state.positions.map((position) => `${position.key.value} ${positionTitle(position, t)}`).join(', '),
    contacts: contactWords(state, instrument, t),
    heard: heardWords(state, t) + notAskedWords(states, state, t),
    silent: deadWords(state, t).join('; '),
    live: isLive,
  };
}

/** What all bodies are drawn in: a state of the switches, the ends that are to be moved, the words. */
interface Setting {
  readonly shown: WiredState;
  readonly states: WiredStates;
  readonly toMove: ReadonlySet<string>;
  readonly moves: readonly Move[];
  readonly t: Language;
}

function bodyOf({ name, part }: SwitchSlot, setting: Setting): SwitchBody {
  const { shown, states, toMove } = setting;
  const { rig } = states.numbered;
  const isOwn = (terminal: string) => terminal.startsWith(`${name}.`);
  const soldered = netsOn(name, setting);
  const nets = [...soldered, ...setting.moves.flatMap((move) => movedOn(name, move, setting))];
  const used = new Set(soldered.flatMap(({ lugs }) => lugs));
  const onLinks = new Set(rig.links.flat());
  return {
    part: `switch:${name}`,
    title: `${name}: ${part?.title ?? part?.name ?? ''}`,
    rows: (part?.rows ?? []).map((row) =>
      row.map((lug) => {
        const terminal = `${name}.${lug}`;
        const takenOff = setting.moves.some((move) => move.terminal === terminal && move.onto.length === 0);
        return { terminal, name: lug, used: used.has(terminal), toMove: toMove.has(terminal), takenOff };
      }),
    ),
    nets,
    contacts: shown.closed
      .filter((group) => group.some(isOwn))
      .map((lugs) => ({ lugs, joins: lugs.filter((lug) => onLinks.has(lug) || used.has(lug)).length > 1 })),
  };
}

/** An end where its fix brings it on this switch: from its lead, or from lug to lug. */
function movedOn(name: string, { terminal, onto }: Move, { states, t }: Setting): readonly NetPicture[] {
  const isOwn = (each: string) => each.startsWith(`${name}.`);
  const isLug = (each: string) => states.instrument.switches.some((own) => own.name === ownerOf(each));
  const lug = onto.find(isOwn);
  const from = isOwn(terminal) ? [terminal] : [];
  const lugs = [...from, ...(lug === undefined ? [] : [lug])];
  if (onto.length === 0 || lugs.length === 0) return [];
  const outside = onto.find((each) => !isLug(each));
  const entries = isLug(terminal)
    ? lug === undefined && outside !== undefined
      ? [outsideEntry(outside, t)]
      : []
    : [outsideEntry(terminal, t)];
  const title = t('{0} as it would be mended', terminal);
  return [{ part: `mended:${terminal}`, title, lugs, live: false, look: {}, entries, mended: true }];
}

const outsideEntry = (terminal: string, t: Language): EntryPicture =>
  terminal.includes('.')
    ? leadEntry(terminal, true)
    : { words: t.word(terminal), letters: undefined, look: {}, toMove: true };

/** What is soldered to the lugs of one switch; a lug that only a resistor or capacitor is on is a net of its own. */
function netsOn(name: string, setting: Setting): readonly NetPicture[] {
  const { shown, states, t } = setting;
  const { numbered } = states;
  const { rig } = numbered;
  const { meaning } = shown;
  const isOwn = (terminal: string) => terminal.startsWith(`${name}.`);
  const alone = rig.elements
    .flatMap(({ ends }) => ends)
    .filter((end) => isOwn(end) && !rig.links.some((net) => net.includes(end)));
  const sounding = new Set(
    rig.elements
      .filter((each) => meaning.sounding.includes(each.name))
      .flatMap(({ ends }) => ends.map((end) => meaning.netOf(end))),
  );
  const ground = meaning.netOf('ground');
  return [...rig.links, ...alone.map((lug) => [lug])].flatMap((net): readonly NetPicture[] => {
    const lugs = net.filter(isOwn);
    const [first] = lugs;
    if (first === undefined) return [];
    const at = meaning.netOf(first);
    const entries = entriesOf(net, name, setting);
    return [
      {
        part: `terminal:${first}`,
        title: list(net, t('and')),
        lugs,
        live: at !== ground && sounding.has(at),
        look: entries.find(({ letters }) => letters !== undefined)?.look ?? {},
        entries,
        mended: false,
      },
    ];
  });
}

/** In the order of the text: what is common, then leads, then what leads on to another switch; many grounds are one line. */
function entriesOf(
  net: readonly string[],
  name: string,
  { states: { instrument }, toMove, t }: Setting,
): readonly EntryPicture[] {
  const plain = (words: string): EntryPicture => ({ words, letters: undefined, look: {}, toMove: false });
  const isSwitch = (owner: string) => instrument.switches.some((each) => each.name === owner);
  const [firstSwitch] = net.flatMap((terminal) => (isSwitch(ownerOf(terminal)) ? [ownerOf(terminal)] : []));
  const leads = net.filter((terminal) => terminal.includes('.') && !isSwitch(ownerOf(terminal)));
  const parts = (instrument.wiring?.parts ?? []).flatMap(({ value, ends }) => {
    const [here, there] = ends;
    const isHere = (end: { readonly name: string }) => net.includes(end.name);
    return isHere(here) || isHere(there)
      ? [plain(t('{0}, to {1}', value.written, (isHere(here) ? there : here).name))]
      : [];
  });
  const on = [...new Set(net.map(ownerOf).filter((owner) => owner !== name && isSwitch(owner)))];
  if (net.includes('ground'))
    return [
      plain(
        leads.length === 0 || firstSwitch !== name
          ? t('ground')
          : leads.length === 1
            ? t('ground, one lead')
            : t('ground, {0} leads', String(leads.length)),
      ),
      ...parts,
    ];
  return [
    ...(net.includes('hot') ? [plain(t('hot'))] : []),
    ...(firstSwitch === name ? leads.map((lead) => leadEntry(lead, toMove.has(lead))) : []),
    ...parts,
    ...on.map((owner) => plain(t(firstSwitch === name ? 'on to {0}' : 'from {0}', owner))),
  ];
}

const ownerOf = (terminal: string): string => terminal.split('.')[0] ?? '';

function leadEntry(terminal: string, toMove: boolean): EntryPicture {
  const owner = ownerOf(terminal);
  const lead = terminal.slice(owner.length + 1);
  const colour = colourOf(lead);
  const look: LeadLook = colour ? { base: colour.base, stripe: colour.stripe } : {};
  return { words: colour ? owner : `${owner} ${lead}`, letters: colour?.code, look, toMove };
}
