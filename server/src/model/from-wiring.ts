/** An instrument's wiring from its block, and the terminals that its lines may name. */
import type { language } from '../../../grammar/src/schema/index.ts';
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Control, Slot } from './instrument.ts';
import type { LeadPath } from './lead.ts';
import { factsOf, type MergedBlock, type Nothing } from './merged-block.ts';
import { looseNetlist, nodeName } from './netlist.ts';
import type { Place, Stated } from './place.ts';
import type { Resolver } from './resolver.ts';
import { unknownAmong } from './unknown-name.ts';
import {
  COMMON_TERMINALS,
  CONTROL_LUGS,
  type SwitchSlot,
  type Wiring,
  type WiringLine,
  type WiringPart,
  type WrittenTerminal,
} from './wiring.ts';

/** What terminals may belong to. */
export interface TerminalOwners {
  readonly slots: readonly Slot[];
  readonly switches: readonly SwitchSlot[];
  readonly controls: readonly Control[];
}

export function wiringFrom(
  block: MergedBlock<typeof language.wiring>,
  owners: TerminalOwners,
  resolver: Resolver,
): Wiring {
  const { hot, link, ground, free, resistor, capacitor, accept, ...unread } = factsOf(block);
  unread satisfies Nothing;
  let isUnread = block.unread.length > 0;
  const terminal = (path: LeadPath): readonly WrittenTerminal[] => {
    const name = terminalName(path, owners, resolver);
    if (name === undefined) isUnread = true;
    return name === undefined ? [] : [{ name, path }];
  };
  const line =
    (kind: WiringLine['kind']) =>
    ({ value, place }: Stated<readonly LeadPath[]>): WiringLine => ({
      kind,
      terminals: value.flatMap(terminal),
      place,
    });
  const part =
    (kind: WiringPart['kind']) =>
    ({ value, place }: Stated<{ value: Quantity; from: LeadPath; onto: LeadPath }>): readonly WiringPart[] => {
      const [from, onto] = [value.from, value.onto].flatMap(terminal);
      return from && onto ? [{ kind, value: value.value, ends: [from, onto], place }] : [];
    };
  const lines = [
    ...hot.map(line('hot')),
    ...link.map(line('link')),
    ...ground.map(line('ground')),
    ...free.map(line('free')),
  ];
  const parts = [...resistor.flatMap(part('resistor')), ...capacitor.flatMap(part('capacitor'))];
  return { place: block.place, lines: inOrder(lines), parts: inOrder(parts), isUnread };
}

const inOrder = <T extends { readonly place: Place }>(all: readonly T[]): readonly T[] =>
  [...all].sort((a, b) => a.place.span.start - b.place.span.start);

/** Told where nothing has it; silent where what it belongs to is told already. */
function terminalName(path: LeadPath, owners: TerminalOwners, resolver: Resolver): string | undefined {
  const [first = '', ...rest] = path.parts;
  if (rest.length === 0) {
    if (COMMON_TERMINALS.some((each) => each === first)) return first;
    const message = `\`${first}\` is no terminal: a terminal is hot, ground, jack, or a lead or lug such as \`bridge.violet\`.`;
    resolver.report(unknownAmong(COMMON_TERMINALS, first, path.place, message));
    return undefined;
  }
  const known = terminalsOf(first, owners);
  if (known === undefined) return undefined;
  const written = rest.join('.');
  const name = known.resolve(path, written);
  if (name !== undefined) return `${first}.${name}`;
  const right = known.names.map((each) => `${first}.${each}`);
  const has = known.names.length > 0 ? `it has ${known.names.join(', ')}` : 'it has none';
  resolver.report(
    unknownAmong(
      right,
      path.text,
      path.place,
      `${capitalised(known.what)} ${first} has no ${known.which} called ${written}: ${has}.`,
    ),
  );
  return undefined;
}

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

interface Terminals {
  readonly what: string;
  readonly which: string;
  readonly names: readonly string[];
  resolve(path: LeadPath, written: string): string | undefined;
}

/** `undefined` where nothing is called so, or where nobody knows what terminals it has. */
export function terminalsOf(owner: string, { slots, switches, controls }: TerminalOwners): Terminals | undefined {
  const among = (names: readonly string[]) => (_: LeadPath, written: string) => names.find((each) => each === written);
  const pickup = slots.find(({ name }) => name === owner)?.pickup;
  if (pickup) {
    const netlist = looseNetlist(pickup);
    return {
      what: 'the pickup fitted as',
      which: 'lead',
      names: [...netlist.leads.keys()],
      resolve: (path) => {
        const node = netlist.resolve({ ...path, parts: path.parts.slice(1), text: path.parts.slice(1).join('.') });
        return node === undefined || netlist.netOf(node) === undefined ? undefined : nodeName(node);
      },
    };
  }
  const part = switches.find(({ name }) => name === owner)?.part;
  if (part) return { what: 'the switch', which: 'lug', names: part.lugs, resolve: among(part.lugs) };
  if (controls.some(({ name }) => name === owner))
    return { what: 'the control', which: 'lug', names: CONTROL_LUGS, resolve: among(CONTROL_LUGS) };
  return undefined;
}
