/** Steps as a person does them, with what each is good for. */

import { looseNetlist, pickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { ENGLISH, type Language, type Wording } from '../words/languages/language.ts';
import { coilWords, endLead, positionWords } from '../words/parts.ts';
import { coilPolesTurned, polesTurned } from '../words/pole-turning.ts';
import { capital, list } from '../words/text.ts';
import { freedLeadName, leadSwap } from './changed-pickup.ts';
import { changesOf, type Move } from './moves.ts';
import { COVER, WORK, type Work } from './work.ts';

export interface StepWords {
  /** In English, as terminals and files have it. */
  readonly text: string;
  readonly why: string;
  /** The text in a language. */
  readonly words: Wording;
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
  return { ...told((t) => textOf(move, t)), why: `${why}.` };
}

const told = (words: Wording): Pick<StepWords, 'text' | 'words'> => ({ text: words(ENGLISH), words });

export const coverWords = ({ name }: Pickup): StepWords => ({
  ...told((t) => t('Take the cover of {0} off; it goes back on last', name)),
  why: capital(`${COVER.reason}.`),
});

function textOf(move: Move, t: Language): string {
  if (move.on === 'position') {
    const { choice, position } = move;
    return t('In {0} take {1} instead of {2}', positionWords(position, t), choice.to, choice.from);
  }
  const { pickup, coil: name, work } = move;
  const coil = pickup.coils.find((each) => each.name === name);
  const what = coil ? t('{0} of {1}', coilWords(coil, t), pickup.name) : pickup.name;
  switch (work) {
    case 'hot and ground':
      return t('Swap hot and ground of {0}', pickup.name);
    case 'dummy at its hookup':
      return t('Turn the dummy coil round at its own hookup: hot and ground of {0} change places', pickup.name);
    case 'leads outside':
    case 'leads inside':
      return t('Swap the leads of {0}: {1} change places', what, swappedWords(pickup, name, t));
    case 'bar magnet':
    case 'rods of all coils':
      return capital(polesTurned(pickup, pickup.name, t));
    case 'rods of a coil':
      return capital(
        pickup.coils.length > 1 && coil
          ? coilPolesTurned(pickup, [coil], { of: pickup.name, t })
          : polesTurned(pickup, pickup.name, t),
      );
    case 'shield by itself':
      return t('Give the shield of {0} a line of its own: `shield {1}`', pickup.name, pickup.shield?.value ?? '');
    case 'shield off a coil':
      return freedWords(move.pickup, changesOf([move]).get(pickup)?.offShield, t);
    default:
      return t('Wind {0} again, the other way round', what);
  }
}

function swappedWords(pickup: Pickup, name: string | undefined, t: Language): string {
  const netlist = pickupNetlist(pickup);
  const coil = pickup.coils.find((each) => each.name === name);
  const swap = name === undefined ? undefined : leadSwap(pickup, name, looseNetlist(pickup));
  if (swap) return list([swap.start.text, swap.finish.text], t('and'));
  return coil ? list([endLead(netlist, coil, 'start'), endLead(netlist, coil, 'finish')], t('and')) : t('they');
}

function freedWords(pickup: Pickup, off: Parameters<typeof freedLeadName>[1] | undefined, t: Language): string {
  if (!off) return t('Take the shield of {0} off the coil', pickup.name);
  const lead = freedLeadName(pickup, off);
  return t(
    'Take the {0} of the {1} coil of {2} off the shield: it leaves by a lead of its own, {3}, and the shield goes to ground by itself',
    t(off.end),
    off.coil,
    pickup.name,
    lead,
  );
}

/** The coils of a stack lie on the same rods. */
const sharersOf = ({ coils }: Pickup, name: string | undefined): string =>
  list(coils.filter((coil) => coil.name === name || coil.below?.value === name).map((each) => coilWords(each)));

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
