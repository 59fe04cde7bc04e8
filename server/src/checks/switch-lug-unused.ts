import { namedTerminals } from '../model/soldered.ts';
import { unusedLugs } from '../physics/switching/meaning.ts';
import { list } from '../words/text.ts';
import { insertLineAfter } from './edits.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';
import { WRONG_WIRING } from './switch-faults.ts';

/** Lugs that nothing is soldered to and that no `free` line names: once for each switch. */
export const switchLugUnused = defineInstrumentCheck({
  code: 'switch/lug-unused',
  severity: 'hint',
  yieldsTo: WRONG_WIRING,
  run: ({ switching, written: { switches, wiring } }) => {
    if (!switching || switching.positions.some(({ verdict }) => verdict === 'differs')) return [];
    const named = wiring ? namedTerminals(wiring) : new Set<string>();
    const unused = unusedLugs(switching.numbered.rig).filter((terminal) => !named.has(terminal));
    const last = wiring?.lines.at(-1)?.place;
    return switches.map(({ name, place }) => {
      const own = unused.filter((terminal) => terminal.startsWith(`${name}.`));
      return own.length === 0
        ? undefined
        : {
            what: say`Nothing is soldered to ${list(own)}.`,
            hint: say`The switch has more than this job needs; nothing is wrong with that.`,
            action: say`Say so with \`free ${own.join(' ')}\`, or see whether a joint is forgotten.`,
            place,
            remedies: () => remedy(say`Say that they are free`, last && insertLineAfter(last, `free ${own.join(' ')}`)),
            subject: { nodes: own },
          };
    });
  },
});
