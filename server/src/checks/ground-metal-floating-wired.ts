import { GROUND } from '../physics/switching/rig.ts';
import { list } from '../words/text.ts';
import { insertLineAfter } from './edits.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';
import { WRONG_WIRING } from './switch-faults.ts';
import { wiredMetalOf } from './wired-metal.ts';

/** Metal or a shield that the wiring joins to nothing: once for each pickup, at the wiring. */
export const groundMetalFloatingWired = defineInstrumentCheck({
  code: 'ground/metal-floating',
  severity: 'warning',
  yieldsTo: WRONG_WIRING,
  run: ({ switching, written: { slots, wiring } }) => {
    if (!switching || !wiring) return [];
    const { rig, numbered } = { rig: switching.numbered.rig, numbered: switching.states };
    const coils = new Set(rig.elements.flatMap(({ ends }) => ends));
    return slots.map(({ name: slot }) => {
      const loose = wiredMetalOf(switching).filter((each) => {
        if (each.slot !== slot) return false;
        return numbered.every(({ meaning }) => {
          const net = meaning.netOf(each.terminal);
          return net !== meaning.netOf(GROUND) && ![...coils].some((end) => meaning.netOf(end) === net);
        });
      });
      const [first] = loose;
      if (!first) return undefined;
      const last = wiring.lines.at(-1)?.place;
      const lead = loose.find(({ name }) => name !== 'baseplate' && name !== 'cover')?.name;
      return {
        what: say`The metal of ${slot} (${list([...new Set(loose.map(({ name }) => name))])}) is joined to nothing: it shields nothing and buzzes when touched.`,
        hint: say`Where a wiring stands, what the hookup grounds is soldered by the wiring alone.`,
        action: say`Name it in a \`ground\` line.`,
        place: wiring.place,
        related: { message: say`the metal`, place: first.place },
        remedies: () =>
          remedy(
            say`Ground it: \`ground ${slot}.${lead ?? first.name}\``,
            last && insertLineAfter(last, `ground ${slot}.${lead ?? first.name}`),
            true,
          ),
        subject: { nodes: loose.map(({ terminal }) => terminal) },
      };
    });
  },
});
