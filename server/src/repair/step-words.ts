/** Steps as a person does them, with what each is good for. */

import { looseNetlist, pickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { coilWords, endLead, positionWords } from '../words/parts.ts';
import { coilPolesTurned, polesTurned } from '../words/pole-turning.ts';
import { capital, list } from '../words/text.ts';
import { freedLeadName, leadSwap } from './changed-pickup.ts';
import { changesOf, type Move } from './moves.ts';
import { COVER, WORK, type Work } from './work.ts';

export interface StepWords {
  readonly text: string;
  readonly why: string;
}

/** From the inside of a pickup outward to the switch. */
export const ORDER: readonly Work[] = [
  'rewind',
  'rods of a coil',
  'rods of all coils',
  'bar magnet',
  'leads inside',
  'shield off a coil',
  'leads outside',
  'shield by itself',
  'hot and ground',
  'dummy at its hookup',
  'other coil of a split',
  'dummy turned round',
];

export function stepWords(move: Move): StepWords {
  const why = capital(`${effectOf(move)}; ${WORK[move.work].reason}`);
  return { text: textOf(move), why: `${why}.` };
}

export const coverWords = ({ name }: Pickup): StepWords => ({
  text: `Take the cover of ${name} off; it goes back on last`,
  why: capital(`${COVER.reason}.`),
});

function textOf(move: Move): string {
  if (move.on === 'position') {
    const { choice, position } = move;
    return `In ${positionWords(position)} take ${choice.to} instead of ${choice.from}`;
  }
  const { pickup, coil: name, work } = move;
  const coil = pickup.coils.find((each) => each.name === name);
  const what = coil ? `${coilWords(coil)} of ${pickup.name}` : pickup.name;
  switch (work) {
    case 'hot and ground':
      return `Swap hot and ground of ${pickup.name}`;
    case 'dummy at its hookup':
      return `Turn the dummy coil round at its own hookup: hot and ground of ${pickup.name} change places`;
    case 'leads outside':
    case 'leads inside':
      return `Swap the leads of ${what}: ${swappedWords(pickup, name)} change places`;
    case 'bar magnet':
    case 'rods of all coils':
      return capital(polesTurned(pickup, pickup.name));
    case 'rods of a coil':
      return capital(
        pickup.coils.length > 1 && coil
          ? coilPolesTurned(pickup, [coil], pickup.name)
          : polesTurned(pickup, pickup.name),
      );
    case 'shield by itself':
      return `Give the shield of ${pickup.name} a line of its own: \`shield ${pickup.shield?.value ?? ''}\``;
    case 'shield off a coil':
      return freedWords(move.pickup, changesOf([move]).get(pickup)?.offShield);
    default:
      return `Wind ${what} again, the other way round`;
  }
}

function swappedWords(pickup: Pickup, name: string | undefined): string {
  const netlist = pickupNetlist(pickup);
  const coil = pickup.coils.find((each) => each.name === name);
  const swap = name === undefined ? undefined : leadSwap(pickup, name, looseNetlist(pickup));
  if (swap) return `${swap.start.text} and ${swap.finish.text}`;
  return coil ? `${endLead(netlist, coil, 'start')} and ${endLead(netlist, coil, 'finish')}` : 'they';
}

function freedWords(pickup: Pickup, off: Parameters<typeof freedLeadName>[1] | undefined): string {
  if (!off) return `Take the shield of ${pickup.name} off the coil`;
  const lead = freedLeadName(pickup, off);
  return (
    `Take the ${off.end} of the ${off.coil} coil of ${pickup.name} off the shield: it leaves by a lead of its own, ${lead}, ` +
    `and the shield goes to ground by itself`
  );
}

/** The coils of a stack lie on the same rods. */
const sharersOf = ({ coils }: Pickup, name: string | undefined): string =>
  list(coils.filter((coil) => coil.name === name || coil.below?.value === name).map(coilWords));

const HUM_ALONE = 'no string drives it: its hum alone is turned over';

function effectOf(move: Move): string {
  if (move.on === 'position')
    return move.choice.turns
      ? HUM_ALONE
      : `the other coil has the other poles up, so in phase its hum has the other sign`;
  const { pickup, work } = move;
  const own = pickup.coils.length > 1 ? ', inside it nothing changes' : '';
  const { coils } = pickup;
  if (coils.find(({ name }) => name === move.coil)?.serves?.value === 'none') return HUM_ALONE;
  switch (work) {
    case 'dummy at its hookup':
      return HUM_ALONE;
    case 'hot and ground':
      return `turns string signal and hum of ${pickup.name} over against other pickups${own}`;
    case 'leads outside':
    case 'leads inside':
    case 'rewind':
      return `turns string signal and hum of the ${move.coil ?? ''} coil over`;
    case 'bar magnet':
    case 'rods of all coils':
      return `turns the string signal of ${pickup.name} over and leaves its hum as it is`;
    case 'rods of a coil':
      return `turns the string signal of ${sharersOf(pickup, move.coil)} over and leaves its hum as it is`;
    default:
      return `keeps the metal of ${pickup.name} on ground wherever its leads go`;
  }
}
