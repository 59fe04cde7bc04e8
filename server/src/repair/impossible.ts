/** Why no set of changes puts everything right, as a sentence that proves it. */

import type { QuickEstimates } from '../estimates/quick.ts';
import { sounds } from '../estimates/signs.ts';
import { reverses } from '../model/selection.ts';
import { positionWords } from '../words/parts.ts';
import { capital, list } from '../words/text.ts';
import type { Fault, Judge, Subject } from './faults.ts';
import type { Move } from './moves.ts';
import { cheapestSolutions, type Search } from './search.ts';

/** What was searched, and how it went. */
export interface Searched {
  readonly faults: readonly Fault[];
  readonly moves: readonly Move[];
  readonly judge: Judge;
  readonly pickups: readonly QuickEstimates[];
  readonly search: Search;
}

export function whyImpossible({ faults, moves, judge, pickups, search }: Searched): string {
  const brought: Fault[] = [];
  for (const fault of faults) {
    const ofIt: Judge = {
      ...judge,
      faults: (made) => judge.faults(made)?.filter((each) => same(each, fault)),
    };
    const alone = cheapestSolutions(
      moves.filter((move) => touches(move, fault)),
      ofIt,
      ALONE,
    );
    if (alone.solutions.length === 0 && alone.completeBelowMinutes === Number.POSITIVE_INFINITY)
      return proofOf(fault, moves, pickups);
    const [cheapest] = alone.solutions;
    brought.push(...((cheapest && judge.faults(cheapest.moves)) ?? []));
  }
  const { completeBelowMinutes } = search;
  if (completeBelowMinutes < Number.POSITIVE_INFINITY)
    return `Nothing that takes less than ${Math.round(completeBelowMinutes)} minutes puts everything right; dearer sets of changes were not looked at.`;
  const clash = contradiction(faults, moves, judge);
  if (clash) return clash;
  if (faults.length === 1)
    return `Of the changes that the spec holds enough for, what puts right ${wordsOf(faults)} brings ${wordsOf(brought)}.`;
  return `Each of these can be put right by itself, but no set of changes puts all of them right at once: ${wordsOf(faults)}.`;
}

const wordsOf = (faults: readonly Fault[]): string => list([...new Set(faults.map(faultWords))]);

/** Two positions, or a position and a pickup, that nothing puts right together. */
function contradiction(faults: readonly Fault[], moves: readonly Move[], judge: Judge): string | undefined {
  const all = [...judge.subjects];
  for (const fault of faults)
    for (const other of all) {
      const both: Judge = {
        ...judge,
        faults: (made) => judge.faults(made)?.filter((each) => isOf(each, other) || isOf(each, fault)),
      };
      const search = cheapestSolutions(moves, both, TOGETHER);
      if (search.solutions.length > 0 || search.completeBelowMinutes < Number.POSITIVE_INFINITY) continue;
      const reversed = [fault.position, other.position].some((each) => each?.selection && reverses(each.selection));
      return (
        `${capital(subjectWords(fault))} and ${subjectWords(other)} contradict each other: whatever puts one right puts the other wrong` +
        `${reversed ? ', because one of them takes a pickup reversed; where that is meant, say `on purpose`' : ''}.`
      );
    }
  return undefined;
}

const TOGETHER = { states: 4_000, beyondBestMinutes: 0, solutions: 1 } as const;

const isOf = (a: Subject, b: Subject): boolean => a.pickup === b.pickup && a.position === b.position;

const subjectWords = ({ pickup, position }: Subject): string =>
  position ? positionWords(position) : (pickup?.name ?? 'the pickup');

const ALONE = { states: 20_000, beyondBestMinutes: 0, solutions: 1 } as const;

const same = (a: Fault, b: Fault): boolean =>
  (a.kind === b.kind || (a.kind !== 'metal' && b.kind !== 'metal')) &&
  a.pickup === b.pickup &&
  a.position === b.position;

function touches(move: Move, { pickup, position }: Fault): boolean {
  if (move.on === 'position') return move.position === position;
  return pickup === undefined || move.pickup === pickup;
}

function proofOf(fault: Fault, moves: readonly Move[], pickups: readonly QuickEstimates[]): string {
  const quick = pickups.find(({ netlist }) => netlist.pickup === fault.pickup);
  if (!quick) return `No change of leads, poles, winding direction or splits puts ${faultWords(fault)} right.`;
  const { pickup } = quick.netlist;
  const live = quick.signs.filter(sounds);
  const turnsOne = moves.some(
    (move) => move.on === 'pickup' && move.pickup === pickup && move.work === 'rods of a coil',
  );
  if (live.length % 2 === 1 && live.length > 1)
    return (
      `Nothing helps ${pickup.name}: poles lie one of two ways up, so of ${count(live.length)} coils one is always over; coils that ` +
      `are in phase and have the same poles up turn the same way round in the path, so the hum of at least one coil is left, whatever is swapped.`
    );
  const poles = live.map(({ pole }) => pole?.sign);
  if (live.length === 2 && poles[0] !== undefined && poles[0] === poles[1] && !turnsOne)
    return (
      `Nothing helps ${pickup.name}: both coils have the same poles up, so in phase they turn the same way round in the path and add ` +
      `their hum, and the other way round they cancel hum and string alike; only poles that can be turned one by one would help.`
    );
  return `No change of leads, poles or winding direction puts ${pickup.name} right: its coils are too unequal for their hum to cancel.`;
}

const count = (number: number): string => ['no', 'one', 'two', 'three', 'four', 'five'][number] ?? String(number);

function faultWords({ kind, pickup, position }: Fault): string {
  const where = position ? `position ${position.key.value}` : (pickup?.name ?? 'the pickup');
  switch (kind) {
    case 'phase':
      return `${where} out of phase`;
    case 'hum':
      return `the hum of ${where}`;
    case 'metal':
      return `the hot metal of ${where}`;
    default:
      return `${where}, which is meant to be out of phase`;
  }
}
