import { quickOf } from '../analysis/pickup-analysis.ts';
import type { QuickOf } from '../estimates/position-network.ts';
import { stateResistance } from '../estimates/state-resistance.ts';
import { type WiredState, type WiredStates, wiredStates } from '../estimates/switch-states.ts';
import type { Instrument } from '../model/instrument.ts';
import { hotBetween, unusedLugs } from '../physics/switching/meaning.ts';
import { stepsOf, type Travel } from '../physics/switching/rig.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { figureOf } from '../quantities/figure.ts';
import { numberText } from '../words/number-text.ts';
import { PICKUP_NUMBERS } from '../words/numbers.ts';
import {
  contactWords,
  deadWords,
  detentsAt,
  heardWords,
  notAskedWords,
  selectionText,
  stateWords,
} from '../words/switch-words.ts';
import { list } from '../words/text.ts';
import { chooseOrAll } from './choose.ts';
import { CommandError, defineCommand } from './command.ts';
import { analysed, SOURCE_OPTIONS } from './source.ts';
import type { Styles } from './styles.ts';
import { displayWidth, jsonText, visible } from './visible.ts';

export const switchStates = defineCommand({
  name: 'switch',
  summary: 'what every state of the switches really does, by what is soldered to their lugs',
  positionals: 'FILE',
  options: {
    format: { type: 'choice', choices: ['text', 'json'], meaning: 'how the states are written' },
    instrument: { type: 'text', value: 'NAME', meaning: 'only this instrument' },
    ...SOURCE_OPTIONS,
  },
  notes: [
    'Positions of the selector that do something else than they say are errors, and `check` tells which end to move; states that no position\n' +
      'names are shown too, and are no fault.',
  ],
  example: {
    line: 'pickup-spec switch samples/pennywither.pickup',
    meaning: 'what is heard in each of the six states of a three-way and a push-pull, and how each silent coil is left',
  },
  async run(values, [file = ''], context) {
    const { analysis, shown } = await analysed(file, values, context);
    context.progress.clear();
    const asked = chooseOrAll(analysis.instruments, ({ written }) => written.name, {
      what: 'instrument',
      name: values.instrument,
      shown,
    });
    const wired = asked.flatMap(({ written }) => {
      const states = wiredStates(written);
      return states ? [{ instrument: written, states, quickOf: quickOf(analysis.bench) }] : [];
    });
    if (wired.length === 0)
      throw new CommandError(
        `${shown}: no instrument with a wiring whose pickups, switches and terminals are all known`,
      );
    const isRight = wired.every(({ states }) => states.positions.every(({ verdict }) => verdict !== 'differs'));
    context.stdout.write(
      values.format === 'json'
        ? jsonText({ schema: 'switch/1', instruments: wired.map(instrumentData) })
        : wired.map((each) => instrumentLines(each, context.styles)).join('\n'),
    );
    return isRight ? 0 : 1;
  },
});

interface Wired {
  readonly quickOf: QuickOf;
  readonly instrument: Instrument;
  readonly states: WiredStates;
}

const COLUMNS = ['state', 'contacts', 'position', 'heard', 'hot to ground', 'silent coils'] as const;

function instrumentLines({ instrument, states, quickOf: quick }: Wired, styles: Styles): string {
  const rows = states.states.map((each) => [
    stateWords(instrument, each.state),
    contactWords(each, instrument),
    each.positions.map(({ key }) => key.value).join(', ') || '-',
    `${isByNets(each) ? 'neither in series nor in parallel, see below' : heardWords(each)}${notAskedWords(states, each)}`,
    ohmWords(stateResistance(states, each, quick)),
    deadWords(each).join('; ') || '-',
  ]);
  const lines = [COLUMNS, ...rows].map((row) => row.map(visible));
  const widths = COLUMNS.map((_, column) => Math.max(...lines.map((row) => displayWidth(row[column] ?? ''))));
  const [head = '', ...table] = lines.map((row) =>
    `  ${row.map((cell, column) => cell + ' '.repeat((widths[column] ?? 0) - displayWidth(cell))).join('  ')}`.trimEnd(),
  );
  const unused = unusedLugs(states.numbered.rig);
  return `${[
    styles.strong(visible(`instrument ${instrument.name}`)),
    styles.faint(head),
    ...table,
    styles.faint('  hot to ground: at the lugs, controls apart, at 20 °C'),
    ...states.states
      .filter(isByNets)
      .map((each) => `  ${visible(`${stateWords(instrument, each.state)}: ${heardWords(each)}.`)}`),
    ...betweenLines(betweenData({ instrument, states })).map((each) => `  ${visible(each)}`),
    ...(unused.length > 0 ? [`  ${visible(`Nothing is soldered to ${list(unused)}.`)}`] : []),
  ].join('\n')}\n`;
}

const isByNets = ({ soldered: { words, fault } }: WiredState): boolean => !words && !fault;

/** `null`: open; left out where it is not known. */
const figureOrNull = (ohm: Estimate | null | undefined) => (ohm ? figureOf(ohm) : ohm);

interface Between {
  readonly switch: string;
  readonly from: string;
  readonly to: string;
  /** With the travel as stated, or with both kinds. */
  readonly hot: Partial<Readonly<Record<Travel, 'held' | 'open' | 'shorted'>>>;
}

/** What happens to hot between neighbouring detents, the other switches in their first. */
function betweenData({ instrument, states }: Omit<Wired, 'quickOf'>): readonly Between[] {
  return stepsOf(states.numbered.rig)
    .filter(({ from, moving }) => from.every((detent, index) => index === moving || detent === 0))
    .flatMap((step) => {
      const moving = instrument.switches[step.moving];
      if (!moving?.part) return [];
      const [from, to] = [step.from, step.to].map((state) => moving.part?.detents[state[step.moving] ?? 0]?.name ?? '');
      const kinds: readonly Travel[] = moving.part.travel
        ? [moving.part.travel]
        : ['make-before-break', 'break-before-make'];
      const hot = Object.fromEntries(kinds.map((kind) => [kind, hotBetween(states.numbered, step, kind)]));
      return [{ switch: moving.name, from: from ?? '', to: to ?? '', hot }];
    });
}

const HOT_WORDS = { held: 'hot is held', open: 'hot hangs in the air', shorted: 'hot lies on ground' } as const;

/** `Between 1 and 2, 2 and 3 of lever: hot is held.`: pairs that do the same together. */
function betweenLines(all: readonly Between[]): readonly string[] {
  const alike = new Map<string, string[]>();
  for (const each of all) {
    const what = `of ${each.switch}: ${hotWords(each.hot)}.`;
    alike.set(what, [...(alike.get(what) ?? []), `${each.from} and ${each.to}`]);
  }
  return [...alike].map(([what, pairs]) => `Between ${pairs.join(', ')} ${what}`);
}

function hotWords(hot: Between['hot']): string {
  const kinds = Object.entries(hot);
  const [first] = kinds;
  return first && kinds.every(([, each]) => each === first[1])
    ? HOT_WORDS[first[1]]
    : kinds.map(([kind, each]) => `${HOT_WORDS[each]} if it is ${kind}`).join(', ');
}

const ohmWords = (ohm: Estimate | null | undefined): string =>
  ohm === undefined ? '?' : ohm === null ? 'open' : numberText(ohm, PICKUP_NUMBERS.resistance20COhm);

function instrumentData({ instrument, states, quickOf: quick }: Wired) {
  return {
    name: instrument.name,
    switches: instrument.switches.map(({ name, partName, part }) => ({
      slot: name,
      part: partName.value,
      travel: part?.travel ?? null,
    })),
    states: states.states.map((each) => ({
      at: Object.fromEntries(detentsAt(instrument, each.state)),
      contacts: each.closed,
      fault: each.meaning.fault ?? null,
      sounds: each.sounds ? selectionText(each.sounds) : null,
      sounding: each.meaning.sounding,
      resistance20COhm: figureOrNull(stateResistance(states, each, quick)),
      dead: [...each.meaning.dead].map(([coil, { closed, on }]) => ({ coil, closed, on })),
      positions: states.positions
        .filter(({ position }) => each.positions.includes(position))
        .map(({ position, verdict }) => ({ key: position.key.value, verdict })),
    })),
    between: betweenData({ instrument, states }),
    unusedLugs: unusedLugs(states.numbered.rig),
  };
}
