/** What the drawing of a wired instrument's switches shows. */
import { colourOf } from '../../../../grammar/values/iec60757.ts';
import type { InstrumentAnalysis } from '../../analysis/analysis-types.ts';
import { type WiredState, type WiredStates, wiredStates } from '../../estimates/switch-states.ts';
import type { Instrument } from '../../model/instrument.ts';
import type { SwitchSlot } from '../../model/wiring.ts';
import { ENGLISH } from '../../words/languages/language.ts';
import { titleOf } from '../../words/parts.ts';
import { positionTitle } from '../../words/selections.ts';
import { contactWords, deadWords, heardWords, notAskedWords, stateWords } from '../../words/switch-words.ts';
import { list } from '../../words/text.ts';
import type { LeadLook } from '../symbols.ts';
import type { EntryPicture, NetPicture, StateRow, SwitchBody, SwitchPicture } from './picture.ts';

/** `live`: key of the position shown; the first where none is named. `undefined` where no wiring is written, or not all of it is known. */
export function switchPicture({ written, findings }: InstrumentAnalysis, live?: string): SwitchPicture | undefined {
  const states = wiredStates(written);
  const shown = states && (stateAt(states, live) ?? states.states[0]);
  if (!states || !shown || written.switches.length === 0) return undefined;
  const title = titleOf(written);
  const closed = contactWords(shown, written);
  const at = stateWords(written, shown.state);
  const [position] = shown.positions;
  const wrong = findings.filter(({ code, severity }) => code.startsWith('switch/') && severity === 'error');
  const toMove = new Set(wrong.flatMap(({ subject }) => subject.nodes ?? []));
  return {
    id: `switch-${written.name}`,
    t: ENGLISH,
    title: `${title}: ${written.switches.length === 1 ? 'its switch' : 'its switches'}`,
    subtitle: `seen from the soldering side; ${position ? `position ${position.key.value}, ` : ''}${at}: ${heardWords(shown)}`,
    name: `Switches of ${title}, lug by lug`,
    description: `In ${at} the contacts join ${closed}; heard is ${heardWords(shown)}. ${states.states.map((each) => `${stateWords(written, each.state)}: ${heardWords(each)}.`).join(' ')}`,
    bodies: written.switches.map((each) => bodyOf(each, shown, states, toMove)),
    states: [...states.states]
      .sort(byPosition)
      .slice(0, MOST_ROWS)
      .map((each) => rowOf(each, states, each === shown)),
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

function rowOf(state: WiredState, states: WiredStates, isLive: boolean): StateRow {
  const { instrument } = states;
  const [first] = state.positions;
  return {
    part: first && `position:${first.key.value}`,
    state: stateWords(instrument, state.state),
    position: state.positions.map((position) => `${position.key.value} ${positionTitle(position)}`).join(', '),
    contacts: contactWords(state, instrument),
    heard: heardWords(state) + notAskedWords(states, state),
    silent: deadWords(state).join('; '),
    live: isLive,
  };
}

function bodyOf(
  { name, part }: SwitchSlot,
  shown: WiredState,
  states: WiredStates,
  toMove: ReadonlySet<string>,
): SwitchBody {
  const { rig } = states.numbered;
  const isOwn = (terminal: string) => terminal.startsWith(`${name}.`);
  const nets = netsOn(name, shown, states, toMove);
  const used = new Set(nets.flatMap(({ lugs }) => lugs));
  const soldered = new Set(rig.links.flat());
  return {
    part: `switch:${name}`,
    title: `${name}: ${part?.title ?? part?.name ?? ''}`,
    rows: (part?.rows ?? []).map((row) =>
      row.map((lug) => {
        const terminal = `${name}.${lug}`;
        return { terminal, name: lug, used: used.has(terminal), toMove: toMove.has(terminal) };
      }),
    ),
    nets,
    contacts: shown.closed
      .filter((group) => group.some(isOwn))
      .map((lugs) => ({ lugs, joins: lugs.filter((lug) => soldered.has(lug) || used.has(lug)).length > 1 })),
  };
}

/** What is soldered to the lugs of one switch; a lug that only a resistor or capacitor is on is a net of its own. */
function netsOn(
  name: string,
  shown: WiredState,
  { numbered, instrument }: WiredStates,
  toMove: ReadonlySet<string>,
): readonly NetPicture[] {
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
    const entries = entriesOf(net, name, instrument, toMove);
    return [
      {
        part: `terminal:${first}`,
        title: list(net),
        lugs,
        live: at !== ground && sounding.has(at),
        look: entries.find(({ letters }) => letters !== undefined)?.look ?? {},
        entries,
      },
    ];
  });
}

/** In the order of the text: what is common, then leads, then what leads on to another switch; many grounds are one line. */
function entriesOf(
  net: readonly string[],
  name: string,
  instrument: Instrument,
  toMove: ReadonlySet<string>,
): readonly EntryPicture[] {
  const plain = (words: string): EntryPicture => ({ words, letters: undefined, look: {}, toMove: false });
  const isSwitch = (owner: string) => instrument.switches.some((each) => each.name === owner);
  const [firstSwitch] = net.flatMap((terminal) => (isSwitch(ownerOf(terminal)) ? [ownerOf(terminal)] : []));
  const leads = net.filter((terminal) => terminal.includes('.') && !isSwitch(ownerOf(terminal)));
  const parts = (instrument.wiring?.parts ?? []).flatMap(({ value, ends }) => {
    const [here, there] = ends;
    const isHere = (end: { readonly name: string }) => net.includes(end.name);
    return isHere(here) || isHere(there) ? [plain(`${value.written} to ${(isHere(here) ? there : here).name}`)] : [];
  });
  const on = [...new Set(net.map(ownerOf).filter((owner) => owner !== name && isSwitch(owner)))];
  if (net.includes('ground'))
    return [
      plain(
        leads.length > 0 && firstSwitch === name
          ? `ground, ${leads.length} lead${leads.length === 1 ? '' : 's'}`
          : 'ground',
      ),
      ...parts,
    ];
  return [
    ...(net.includes('hot') ? [plain('hot')] : []),
    ...(firstSwitch === name ? leads.map((lead) => leadEntry(lead, toMove.has(lead))) : []),
    ...parts,
    ...on.map((owner) => plain(`${firstSwitch === name ? 'on to' : 'from'} ${owner}`)),
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
