/** Why no wiring does it: the smallest sets of states that clash, and how many poles would do. */
import { isWireable } from './least-wiring.ts';
import type { IsOver, WantedState, WiringProblem } from './wiring-problem.ts';

/** Over after so many questions: the same on every machine. */
export function budget(searches: number): IsOver {
  let left = searches;
  return () => left-- <= 0;
}

/** All smallest sets of states, by their place in the list, that no wiring makes together; none where that could not be proven. */
export function smallestClashes(problem: WiringProblem, searches: number): readonly (readonly number[])[] {
  const indices = problem.states.map((_, index) => index);
  for (let size = 1; size <= indices.length; size++) {
    const clashing = subsets(indices, size).filter(
      (some) => !mayDo({ ...problem, states: problem.states.filter((_, index) => some.includes(index)) }, searches),
    );
    if (clashing.length > 0) return clashing;
  }
  return [];
}

/** States that no wiring makes together, of which none can be left out; `undefined` where that is not proven. */
export function oneClash(problem: WiringProblem, searches: number): readonly number[] | undefined {
  const only = (some: readonly number[]) => ({
    ...problem,
    states: problem.states.filter((_, index) => some.includes(index)),
  });
  let clash = problem.states.map((_, index) => index);
  if (mayDo(problem, searches)) return undefined;
  for (const each of clash) {
    const without = clash.filter((other) => other !== each);
    if (!mayDo(only(without), searches)) clash = without;
  }
  return clash;
}

/** Fewest poles of one throw for each state that make them all; `undefined` where more than six would be needed. */
export const polesNeeded = (problem: WiringProblem, searches: number): number | undefined =>
  FEW_POLES.find((poles) => mayDo(withPoles(problem, poles), searches));

const FEW_POLES = [0, 1, 2, 3, 4, 5, 6] as const;

/** Not proven impossible: nothing is said of it. */
const mayDo = (problem: WiringProblem, searches: number): boolean => isWireable(problem, budget(searches)) !== false;

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
