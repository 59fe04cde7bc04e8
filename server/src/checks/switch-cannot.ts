import { clashing, findingClash } from '../estimates/wiring-plan.ts';
import type { Instrument, Position } from '../model/instrument.ts';
import type { Steps } from '../physics/switching/steps.ts';
import { list } from '../words/text.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { say } from './say.ts';

/** Where no wiring stands yet: proven that none does all positions. A search that is ended early says nothing. */
export const switchCannot = defineInstrumentCheck({
  code: 'switch/cannot',
  severity: 'error',
  yieldsTo: [],
  late: true,
  run: ({ written }) => {
    const [first] = written.switches;
    const clash = isToPlan(written) ? clashing(written, FEW_SEARCHES) : undefined;
    if (!clash || !first) return [];
    const { positions, polesNeeded } = clash;
    return [
      {
        what:
          positions.length === 1
            ? say`No wiring of ${list(names(written.switches))} makes position ${keysOf(positions)}.`
            : say`No wiring of ${list(names(written.switches))} makes positions ${keysOf(positions)} together: whatever is soldered for good, one of them is wrong.`,
        hint: say`It has too few contacts to part what these positions join${polesNeeded === undefined ? '' : say`; all positions take ${polesNeeded === 1 ? 'one pole' : say`${polesNeeded} poles`} of one throw each`}.`,
        action: say`Take a switch with more poles: the actions of this line and the command wire name those of the shelf that do it.`,
        place: first.place,
        subject: { nodes: written.switches.map(({ name }) => name) },
      },
    ];
  },
});

/** What the check rests on, in steps: it is known afterwards. */
export function* searchingClash(written: Instrument): Steps<void> {
  if (isToPlan(written)) yield* findingClash(written, FEW_SEARCHES);
}

const isToPlan = ({ wiring, switches }: Instrument): boolean => wiring === undefined && switches.length > 0;

const names = (switches: readonly { readonly name: string }[]) => switches.map(({ name }) => name);
const keysOf = (positions: readonly Position[]) => list(positions.map(({ key }) => key.value));

/** For all that is asked: some tenths of a second at most. */
const FEW_SEARCHES = 600;
