import type { WiredStates } from '../estimates/switch-states.ts';
import { hotBetween } from '../physics/switching/meaning.ts';
import { type Step, stepsOf, type Travel } from '../physics/switching/rig.ts';
import { list } from '../words/text.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { say } from './say.ts';
import { WRONG_WIRING } from './switch-faults.ts';

/** Between two detents that sound, hot hangs in the air for a moment; certain only where that holds for the travel as known. */
export const switchOpensHot = defineInstrumentCheck({
  code: 'switch/opens-hot',
  severity: 'information',
  yieldsTo: WRONG_WIRING,
  run: ({ switching, written }) =>
    written.switches.map(({ name, part, place }, moving) => {
      if (!switching || !part) return undefined;
      const steps = stepsOf(switching.numbered.rig).filter((step) => step.moving === moving && sounds(switching, step));
      const opening = steps.filter((step) =>
        travels(part.travel).every((how) => hotBetween(switching.numbered, step, how) === 'open'),
      );
      if (opening.length === 0) return undefined;
      const pairs = [
        ...new Set(
          opening.map(
            ({ from }) =>
              `${detentName(part.detents, from[moving])} and ${detentName(part.detents, (from[moving] ?? 0) + 1)}`,
          ),
        ),
      ];
      const where = opening.length === steps.length && pairs.length > 1 ? 'all detents' : list(pairs);
      return {
        what: say`Between ${where} of ${name} hot hangs in the air for a moment${part.travel ? say` (${part.travel})` : ''}: expect a pop.`,
        hint: say`A resistor of some megohm from hot to ground keeps the step small (common practice, no published source).`,
        place,
        subject: { nodes: [name] },
      };
    }),
});

const travels = (travel: Travel | undefined): readonly Travel[] =>
  travel ? [travel] : ['make-before-break', 'break-before-make'];

const detentName = (detents: readonly { readonly name: string }[], index: number | undefined): string =>
  detents[index ?? 0]?.name ?? '';

/** Both ends of the step are heard, and are positions. */
function sounds({ states }: WiredStates, { from, to }: Step): boolean {
  return [from, to].every((state) => {
    const there = states.find((each) => each.state.join() === state.join());
    return there?.meaning.fault === undefined && (there?.positions.length ?? 0) > 0;
  });
}
