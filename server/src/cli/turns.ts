import { readQuantity } from '../../../grammar/src/read-quantity.ts';
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { resistanceAt20C } from '../estimates/coil-reading.ts';
import {
  PEELED_LENGTH_RELATIVE_SD,
  ROOM_TEMPERATURE_SD_K,
  STATED_TEMPERATURE_SD_K,
} from '../estimates/common-practice.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import {
  type TurnsProposal,
  targetProposals,
  turnsAfterBreak,
  turnsForResistance,
  turnsPeeled,
  turnsThatMatch,
} from '../estimates/turns-plan.ts';
import { type Bench, benchMeter, benchRoomC } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { type Estimate, estimateOf, scale } from '../quantities/estimate.ts';
import { fitText, offText, turnsText, wireText, woundText } from '../words/turns-words.ts';
import { WIRE_SPARE } from '../words/wire-spare.ts';
import { choose, chooseOnly } from './choose.ts';
import { CommandError, defineCommand } from './command.ts';
import { roomCelsius } from './room.ts';
import { analysed, SOURCE_OPTIONS } from './source.ts';
import { visible } from './visible.ts';

export const turns = defineCommand({
  name: 'turns',
  summary: 'turns of a coil for its target, a resistance or a match, left after a break, or gone with peeled wire',
  positionals: 'FILE',
  options: {
    pickup: { type: 'text', value: 'NAME', meaning: 'which pickup, where the file holds several' },
    coil: { type: 'text', value: 'NAME', meaning: 'which coil, where the pickup has several' },
    resistance: {
      type: 'text',
      value: 'OHM',
      meaning: 'turns that read this at the room temperature, as 4.1kohm or 4k1',
    },
    match: {
      type: 'text',
      value: 'COIL',
      meaning: 'turns that cancel as much hum as that coil makes, and what to take off for them',
    },
    rest: { type: 'text', value: 'OHM', meaning: 'what is left of the coil reads this: turns left, turns gone' },
    peeled: { type: 'text', value: 'LENGTH', meaning: 'this much wire came off the outside, as 3m: turns gone' },
    room: { type: 'text', value: 'DEGREES', meaning: "of the reading; the bench's room unless given" },
    ...SOURCE_OPTIONS,
  },
  notes: [
    'Without a question, the turns that reach the target of the spec.',
    "A coil's own reading tells what its wire really has; each answer comes with its ±, one standard deviation.",
    `Wire is told with ${WIRE_SPARE}, for both ends and a break.`,
  ],
  example: {
    line: 'pickup-spec turns samples/withen-bridge.pickup --coil slug --resistance 4k1 --room 23degC',
    meaning: 'turns for 4.1 kΩ in a room of 23 °C, whether they fit, and whether the spool holds the wire',
  },
  async run(values, [file = ''], context) {
    const asked = (['resistance', 'match', 'rest', 'peeled'] as const).filter((name) => values[name] !== undefined);
    if (asked.length > 1)
      throw new CommandError(
        'turns answers one question: --resistance OHM, --match COIL, --rest OHM or --peeled LENGTH; none: the target',
      );
    const { analysis, shown } = await analysed(file, values, context);
    context.progress.clear();
    const { bench } = analysis;
    const quick = pickupOf(analysis, values.pickup, shown);
    const roomC = values.room === undefined ? benchRoomC(bench) : roomCelsius(values.room);
    const print = (heading: string, lines: readonly string[]) =>
      context.stdout.write(`${[heading, ...lines.map((line) => `  ${line}`)].map(visible).join('\n')}\n`);
    const [question] = asked;
    if (question === undefined) {
      const reached = targetProposals(quick, bench);
      if (reached.length === 0) throw new CommandError(`${shown}: ${NO_QUESTION}`);
      for (const { words, proposals } of reached) print(`for the target ${words}`, proposals.flatMap(ofCoil));
      return 0;
    }
    const wanted = { what: 'coil', name: values.coil, shown };
    const coil = chooseOnly(quick.netlist.pickup.coils, ({ name }) => name, wanted);
    const answers = {
      resistance: (ohm: string) => proposalLines(turnsForResistance(quick, coil, wantedAt20C(ohm, roomC))),
      match: (other: string) => proposalLines(turnsThatMatch(quick, coil, coilNamed(quick, other, shown))),
      rest: (ohm: string) => breakLines(turnsAfterBreak(quick, coil, ohmAt20C(ohm, 'rest', values.room, bench))),
      peeled: (length: string) => peeledLines(turnsPeeled(quick, coil, lengthOf(length))),
    };
    const lines = answers[question](values[question] ?? '');
    if (!lines) throw new CommandError(`${shown}: turns of coil ${coil.name} are not known: ${NEEDED}`);
    print(`coil ${coil.name}, at ${roomC} °C`, lines);
    return 0;
  },
});

const NEEDED = 'its bobbin with core and window, its wire or spool, and turns or a reading settle it';

const NO_QUESTION = 'no target with turns to plan; ask --resistance OHM, --match COIL, --rest OHM or --peeled LENGTH';

function pickupOf({ pickups, bench }: Analysis, name: string | undefined, shown: string): QuickEstimates {
  return quickOf(bench)(chooseOnly(pickups, (each) => each.pickup.name, { what: 'pickup', name, shown }).pickup);
}

const coilNamed = (quick: QuickEstimates, name: string, shown: string): Coil =>
  choose(quick.netlist.pickup.coils, (each) => each.name, { what: 'coil', name, shown });

function proposalLines(proposal: TurnsProposal | undefined): readonly string[] | undefined {
  if (!proposal) return undefined;
  const { turns: count, off, wire } = proposal;
  return [`${turnsText(count)}, ${fitText(proposal)}`, ...(off ? [offText(off)] : []), wireText(wire)];
}

const ofCoil = (proposal: TurnsProposal): readonly string[] =>
  (proposalLines(proposal) ?? []).map((line, index) => (index === 0 ? `${proposal.coil.name}: ${line}` : `  ${line}`));

function breakLines(rest: ReturnType<typeof turnsAfterBreak>): readonly string[] | undefined {
  if (!rest) return undefined;
  const { left, gone, wire } = rest;
  return [
    `${turnsText(left)} left`,
    ...(gone ? [`gone: ${woundText(gone)}`] : []),
    ...(wire ? [`to wind them anew: ${wireText(wire)}`] : []),
  ];
}

const peeledLines = (peeled: ReturnType<typeof turnsPeeled>): readonly string[] | undefined =>
  peeled && [`${turnsText(peeled.gone)} gone`, `to wind them anew: ${wireText(peeled.wire)}`];

const ohms = (written: string, option: string): Quantity =>
  readQuantity(written, 'resistance') ?? wrong(`--${option} ${written}`, 'a resistance is needed, as 4.1kohm or 4k1');

/** What a coil is to read in the room; a ± that is stated is a tolerance of the turns. */
function wantedAt20C(written: string, roomC: number): Estimate {
  const { si, sd = 0 } = ohms(written, 'resistance');
  return scale(estimateOf(si, { sd, basis: 'stated' }), 1 / copperTemperatureFactor(roomC));
}

/** What was read of a coil, with the error of meter and thermometer. */
function ohmAt20C(written: string, option: string, room: string | undefined, bench: Bench | undefined): Estimate {
  const stated = room === undefined ? undefined : roomCelsius(room);
  return resistanceAt20C(
    ohms(written, option),
    {
      celsius: stated ?? benchRoomC(bench),
      sdK: stated === undefined ? ROOM_TEMPERATURE_SD_K : STATED_TEMPERATURE_SD_K,
      words: 'in the room',
      assumed: stated === undefined,
    },
    benchMeter(bench),
  );
}

function lengthOf(written: string): Estimate {
  const { si, sd } =
    readQuantity(written, 'length') ?? wrong(`--peeled ${written}`, 'a length is needed, as 3m or 250mm');
  return estimateOf(si, { sd: sd ?? PEELED_LENGTH_RELATIVE_SD * si, basis: 'reading' });
}

function wrong(option: string, needed: string): never {
  throw new CommandError(`${option.slice(0, 60)}: ${needed}`);
}
