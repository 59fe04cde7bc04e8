/** What coils, their ends, their leads and the positions of a switch are called. */
import type { Plastic } from '../model/bobbin.ts';
import type { Coil, CoilEnd } from '../model/coil.ts';
import type { Position } from '../model/instrument.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { PhotographOf } from '../model/photographs.ts';
import { ENGLISH, type Language, type PlainText } from './languages/language.ts';
import { listIn } from './text.ts';

/** Of a pickup or an instrument: its title, else its name. */
export const titleOf = ({ title, name }: { readonly title: string | undefined; readonly name: string }): string =>
  title ?? name;

/** Of a photograph: the coil or the readings that it stands with. */
export const photographedWords = (of: PhotographOf, t: Language): string =>
  'coil' in of ? t('{0} coil', of.coil) : of.readings;

export const coilWords = (coil: Coil, t = ENGLISH): string => t('the {0} coil', coil.name);

/** The lead that a coil's end leaves by, as the hookup names it: a conductor, its own lead, or the end itself. */
export function endLead(netlist: PickupNetlist, coil: Coil, end: CoilEnd): string {
  const outgoing = [...netlist.leads.values()].find((lead) =>
    lead.ends.some((each) => each.coil === coil && each.end === end),
  );
  if (outgoing) return outgoing.name;
  const winding = netlist.windings.find((each) => each.coil === coil);
  const net = winding?.ends === 'from a kick' ? winding[end] : undefined;
  const lead = net === undefined ? undefined : netlist.nets[net]?.nodes.find((node) => node.startsWith('lead:'));
  return lead ? lead.slice('lead:'.length) : `${coil.name}.${end}`;
}

/** `start turquoise, finish orange`. */
export const endsWords = (netlist: PickupNetlist, coil: Coil, t = ENGLISH): string =>
  t('start {0}, finish {1}', endLead(netlist, coil, 'start'), endLead(netlist, coil, 'finish'));

/** `turquoise and orange`. */
export const bothLeads = (netlist: PickupNetlist, coil: Coil, t: Language): string =>
  listIn(t, [endLead(netlist, coil, 'start'), endLead(netlist, coil, 'finish')]);

/** `position 2 (bridge + middle)`: of the switch. */
export const positionWords = ({ key, title }: Pick<Position, 'key' | 'title'>, t = ENGLISH): string =>
  t('position {0}', `${key.value}${title ? ` (${title})` : ''}`);

/** `42 AWG`; `00 AWG`, which is -1. */
export const gaugeWords = (gauge: number): string => `${gauge < 0 ? '0'.repeat(1 - gauge) : gauge} AWG`;

export const PLASTIC_WORDS = { abs: 'ABS', butyrate: 'butyrate', fibre: 'fibre' } as const satisfies Readonly<
  Record<Plastic, PlainText>
>;

export const PLASTIC_NAMES = ['abs', 'butyrate', 'fibre'] as const satisfies readonly Plastic[];
