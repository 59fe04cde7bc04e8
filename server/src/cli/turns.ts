import { parseCode } from '../../../grammar/values/iec60062.ts';
import { type Dimension, unitOf } from '../../../grammar/values/unit-table.ts';
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { WIRE_ALLOWANCE } from '../estimates/common-practice.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import {
  type TurnsProposal,
  turnsAfterBreak,
  turnsForResistance,
  turnsPeeled,
  turnsThatMatch,
  wireNeededKg,
} from '../estimates/winding-plan.ts';
import { benchRoomC } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { printCount, printQuantity } from '../quantities/print.ts';
import { choose } from './choose.ts';
import { CommandError, defineCommand } from './command.ts';
import { roomCelsius } from './room.ts';
import { analyseSource, requireSource, SOURCE_OPTIONS } from './source.ts';
import { visible } from './visible.ts';

export const turns = defineCommand({
  name: 'turns',
  summary: 'turns of a coil for a resistance or a match, left after a break, or gone with peeled wire',
  positionals: 'FILE',
  least: 1,
  most: 1,
  options: {
    pickup: { type: 'text', value: 'NAME', meaning: 'which pickup, where the file holds several' },
    coil: { type: 'text', value: 'NAME', meaning: 'which coil, where the pickup has several' },
    resistance: {
      type: 'text',
      value: 'OHM',
      meaning: 'turns that read this at the room temperature, as 4.1kohm or 4k1',
    },
    match: { type: 'text', value: 'COIL', meaning: 'turns that cancel as much hum as that coil makes' },
    rest: { type: 'text', value: 'OHM', meaning: 'what is left of the coil reads this: turns left, turns gone' },
    peeled: { type: 'text', value: 'LENGTH', meaning: 'this much wire came off the outside, as 3m: turns gone' },
    room: { type: 'text', value: 'DEGREES', meaning: "of the reading; the bench's room unless given" },
    ...SOURCE_OPTIONS,
  },
  notes: [`Wire needed counts ${Math.round((WIRE_ALLOWANCE - 1) * 100)} % for both ends and for breaks.`],
  example: {
    line: 'pickup-spec turns samples/withen-bridge.pickup --coil slug --resistance 4k1 --room 23degC',
    meaning: 'turns for 4.1 kΩ in a room of 23 °C, whether they fit, and the wire they take',
  },
  async run(values, [file = ''], context) {
    const asked = (['resistance', 'match', 'rest', 'peeled'] as const).filter((name) => values[name] !== undefined);
    if (asked.length !== 1)
      throw new CommandError(
        'turns answers one question: --resistance OHM, --match COIL, --rest OHM or --peeled LENGTH',
      );
    const source = await requireSource(file, values, context);
    const analysis = analyseSource(source, context);
    context.progress.clear();
    const { quick, coil } = coilOf(analysis, values, source.shown);
    const roomC = values.room === undefined ? benchRoomC(analysis.bench) : roomCelsius(values.room);
    const at20C = (option: 'resistance' | 'rest') =>
      ohmOf(values[option] ?? '', option) / copperTemperatureFactor(roomC);
    const lines =
      values.resistance !== undefined
        ? proposalLines(quick, turnsForResistance(quick, coil, at20C('resistance')))
        : values.match !== undefined
          ? proposalLines(quick, turnsThatMatch(quick, coil, coilNamed(quick, values.match, source.shown)))
          : values.rest !== undefined
            ? breakLines(turnsAfterBreak(quick, coil, at20C('rest')))
            : peeledLines(turnsPeeled(quick, coil, lengthOf(values.peeled ?? '')));
    if (!lines) throw new CommandError(`${source.shown}: turns of coil ${coil.name} are not known: ${NEEDED}`);
    context.stdout.write(
      `${[`coil ${coil.name}, at ${roomC} °C`, ...lines.map((line) => `  ${line}`)].map(visible).join('\n')}\n`,
    );
    return 0;
  },
});

const NEEDED = 'its bobbin with core and window, its wire or spool, and turns or a reading settle it';

function coilOf(
  { pickups, bench }: Analysis,
  { pickup, coil }: { readonly pickup?: string | undefined; readonly coil?: string | undefined },
  shown: string,
): { readonly quick: QuickEstimates; readonly coil: Coil } {
  const chosen = oneOf(pickups, pickup, (each: PickupAnalysis) => each.pickup.name, {
    what: 'pickup',
    option: '--pickup',
    shown,
  });
  const quick = quickOf(bench)(chosen.pickup);
  return {
    quick,
    coil: oneOf(chosen.pickup.coils, coil, ({ name }) => name, { what: 'coil', option: '--coil', shown }),
  };
}

const coilNamed = (quick: QuickEstimates, name: string, shown: string): Coil =>
  choose(quick.netlist.pickup.coils, (each) => each.name, { what: 'coil', name, shown });

function oneOf<T>(
  parts: readonly T[],
  name: string | undefined,
  nameOf: (part: T) => string,
  { what, option, shown }: { readonly what: string; readonly option: string; readonly shown: string },
): T {
  if (name !== undefined) return choose(parts, nameOf, { what, name, shown });
  const [only, another] = parts;
  if (only === undefined) throw new CommandError(`${shown} holds no ${what}`);
  if (another !== undefined)
    throw new CommandError(
      `${shown} holds several ${what}s; ${option} NAME says which: ${parts.map(nameOf).join(', ')}`,
    );
  return only;
}

function proposalLines(quick: QuickEstimates, proposal: TurnsProposal | undefined): readonly string[] | undefined {
  if (!proposal) return undefined;
  const { coil, turns: count, windowFilled, fits } = proposal;
  const now = quick.windings.get(coil)?.turns?.value;
  const mass = wireNeededKg(quick, coil);
  // The stated coil's mass, scaled by turns: the outer turns are longer, which the allowance covers.
  const kg = mass !== undefined && now ? (mass * count) / now : undefined;
  const filled =
    windowFilled === undefined
      ? ''
      : `, ${Math.round(windowFilled * 100)} % of the window${fits ? '' : ': it does not fit'}`;
  return [
    `${printCount(count)} turns${filled}`,
    ...(kg === undefined ? [] : [`wire needed: ${printQuantity({ value: kg, dimension: 'mass' })}`]),
  ];
}

const breakLines = (rest: ReturnType<typeof turnsAfterBreak>): readonly string[] | undefined =>
  rest && [`${printCount(rest.left)} turns left`, `${printCount(rest.peeled)} turns gone`];

const peeledLines = (gone: number | undefined): readonly string[] | undefined =>
  gone === undefined ? undefined : [`${printCount(gone)} turns gone`];

function ohmOf(written: string, option: string): number {
  const code = parseCode(written, 'resistance');
  if ('si' in code) return code.si;
  return (
    quantityIn(written, 'resistance') ?? wrong(`--${option} ${written}`, 'a resistance is needed, as 4.1kohm or 4k1')
  );
}

const lengthOf = (written: string): number =>
  quantityIn(written, 'length') ?? wrong(`--peeled ${written}`, 'a length is needed, as 3m or 250mm');

function quantityIn(written: string, dimension: Dimension): number | undefined {
  const [, number = '', unit = ''] = /^\s*(\d+(?:\.\d+)?)\s*(\S+)\s*$/.exec(written) ?? [];
  const row = unitOf(unit);
  return number !== '' && row?.dimension === dimension ? Number(number) * row.factor : undefined;
}

function wrong(option: string, needed: string): never {
  throw new CommandError(`${option.slice(0, 60)}: ${needed}`);
}
