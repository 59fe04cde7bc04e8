/** Why no wiring does it: the smallest sets of states that clash, and how many poles would do. */
import { isWireable } from './least-wiring.ts';
import type { Steps } from './steps.ts';
import type { Budget, WantedState, WiringProblem } from './wiring-problem.ts';

/** The smallest sets of states, by their place in the list, that are proven to be made together by no wiring. */
export function* smallestClashes(problem: WiringProblem, budget: Budget): Steps<readonly (readonly number[])[]> {
  const indices = problem.states.map((_, index) => index);
  for (let size = 1; size <= indices.length; size++) {
    const clashing: (readonly number[])[] = [];
    for (const some of subsets(indices, size)) if (!(yield* mayDo(only(problem, some), budget))) clashing.push(some);
    if (clashing.length > 0) return clashing;
  }
  return [];
}

/** States that no wiring makes together, of which none can be left out; `undefined` where that is not proven. */
export function* oneClash(problem: WiringProblem, budget: Budget): Steps<readonly number[] | undefined> {
  if (yield* mayDo(problem, budget)) return undefined;
  let clash = problem.states.map((_, index) => index);
  for (const each of clash) {
    const without = clash.filter((other) => other !== each);
    if (!(yield* mayDo(only(problem, without), budget))) clash = without;
  }
  return clash;
}

/** Fewest poles of one throw for each state that make them all; `undefined` where more than six would be needed, or it is not proven. */
export function* polesNeeded(problem: WiringProblem, budget: Budget): Steps<number | undefined> {
  for (let poles = 0; poles <= MOST_POLES; poles++) {
    const isDone = yield* isWireable(withPoles(problem, poles), budget);
    if (isDone !== false) return isDone ? poles : undefined;
  }
  return undefined;
}

const MOST_POLES = 6;

/** Not proven impossible: nothing is said of it. */
function* mayDo(problem: WiringProblem, budget: Budget): Steps<boolean> {
  return (yield* isWireable(problem, budget)) !== false;
}

const only = (problem: WiringProblem, some: readonly number[]): WiringProblem => ({
  ...problem,
  states: problem.states.filter((_, index) => some.includes(index)),
});

function withPoles(problem: WiringProblem, poles: number): WiringProblem {
  const lugsEach = problem.states.length + 1;
  const states = problem.states.map(
    (state, index): WantedState => ({
      ...state,
      closed: Array.from({ length: poles }, (_, pole) => [pole * lugsEach, pole * lugsEach + 1 + index]),
    }),
  );
  const commons = Array.from({ length: poles }, (_, pole) => pole * lugsEach);
  return { ...problem, states, lugs: poles * lugsEach, alike: [commons] };
}

function subsets(of: readonly number[], size: number): readonly (readonly number[])[] {
  if (size === 0) return [[]];
  return of.flatMap((first, index) => subsets(of.slice(index + 1), size - 1).map((rest) => [first, ...rest]));
}
