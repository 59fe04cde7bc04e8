import { isPlaced, namedTerminals } from '../model/soldered.ts';
import { GROUND_TERMINAL, HOT_TERMINAL, JACK_TERMINAL } from '../model/wiring.ts';
import { list } from '../words/text.ts';
import { insertLineAfter } from './edits.ts';
import type { Edit } from './finding.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';
import { WRONG_WIRING, writtenAt } from './switch-faults.ts';
import { wiringEdits } from './wiring-edits.ts';

/** Lugs of a control that the wiring places, but of which no line says where they lie; and the jack, where its volume goes nowhere. */
export const leadFloatingControl = defineInstrumentCheck({
  code: 'lead/floating',
  severity: 'error',
  yieldsTo: WRONG_WIRING,
  run: ({ switching, written: { controls, wiring } }) => {
    if (!switching || !wiring) return [];
    const { links } = switching.numbered.rig;
    const named = namedTerminals(wiring);
    const isOne = (a: string, b: string) => links.some((net) => net.includes(a) && net.includes(b));
    return controls.map((control) => {
      const { name, kind } = control;
      if (name === undefined || !isPlaced(control, wiring)) return undefined;
      const [input, wiper, low] = [`${name}.input`, `${name}.wiper`, `${name}.low`];
      const lugs = kind === 'volume' ? [input, wiper, low] : [input, low];
      const loose = lugs.filter((lug) => !named.has(lug));
      // From hot to ground it turns what goes to the jack, which is then its wiper's.
      const isMaster = kind === 'volume' && !isOne(wiper, HOT_TERMINAL) && !isOne(wiper, GROUND_TERMINAL);
      const isJackLost =
        isMaster && isOne(input, HOT_TERMINAL) && isOne(low, GROUND_TERMINAL) && !named.has(JACK_TERMINAL);
      const lost = isJackLost && !loose.includes(wiper) ? [...loose, JACK_TERMINAL] : loose;
      if (lost.length === 0) return undefined;
      const goalOf = (lug: string): readonly [string, string] | undefined => {
        if (lug === JACK_TERMINAL) return [JACK_TERMINAL, wiper];
        if (lug === input) return [input, HOT_TERMINAL];
        if (lug === low) return [low, GROUND_TERMINAL];
        return !named.has(JACK_TERMINAL) || isOne(input, JACK_TERMINAL) ? [JACK_TERMINAL, wiper] : undefined;
      };
      const goals = lost.map(goalOf);
      const edits = goals.flatMap((goal): readonly (Edit | undefined)[] =>
        goal ? (wiringEdits(wiring, { kind: 'move', terminal: goal[0], to: [goal[1]] }) ?? [undefined]) : [undefined],
      );
      const joined = list(goals.flatMap((goal) => (goal ? [say`${joinedWords(goal)}`] : [])));
      const last = wiring.lines.at(-1)?.place;
      const free = `free ${lost.join(' ')}`;
      const isSpare = lost.every((lug) => lug === input || lug === low);
      return {
        what: say`${list(lost)} ${lost.length === 1 ? 'is' : 'are'} soldered to nothing, and no line of the wiring says so.`,
        hint: say`A control stands at the lugs that are named, and nowhere else.`,
        action: isSpare
          ? say`Name it in a line (usual is ${joined}), or leave it empty (\`${free}\`).`
          : joined === ''
            ? say`Name it in a line.`
            : say`Name it in a line: usual is ${joined}.`,
        severity: lost.length === 1 && lost[0] === low ? ('warning' as const) : ('error' as const),
        place: lugs.flatMap((lug) => writtenAt(wiring, lug))[0]?.path.place ?? wiring.place,
        related: { message: say`the control`, place: control.place },
        remedies: () => [
          remedy(say`Solder ${joined}`, edits, true),
          isSpare ? remedy(say`Leave it empty: \`${free}\``, last && insertLineAfter(last, free)) : undefined,
        ],
        subject: { nodes: lost },
      };
    });
  },
});

/** In the order in which a person thinks of it: a lug to where it belongs. */
const joinedWords = ([end, to]: readonly [string, string]): string =>
  end === JACK_TERMINAL ? `\`${to}\` to \`${end}\`` : `\`${end}\` to \`${to}\``;
