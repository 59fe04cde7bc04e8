import path from 'node:path';
import type { Analysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import type { FrequencyResponse } from '../estimates/estimates.ts';
import { DEFAULT_LOAD, pickupResponse } from '../estimates/pickup-estimates.ts';
import { heard, inTurn, LEFT_OUT, noteHz, wavBytes } from '../sound/listen.ts';
import { choose } from './choose.ts';
import { CommandError, defineCommand } from './command.ts';
import { shownPath } from './files.ts';
import { POT_OPTIONS } from './pot-options.ts';
import { analyseSource, requireSource, SOURCE_OPTIONS } from './source.ts';
import { visible } from './visible.ts';
import { writeFile } from './write-file.ts';

export const listen = defineCommand({
  name: 'listen',
  summary: 'a plucked string through the computed response, as a sound file',
  positionals: 'FILE',
  least: 1,
  most: 1,
  options: {
    output: { type: 'text', value: 'FILE.wav', short: 'o', meaning: 'the file to write; it is needed' },
    pickup: { type: 'text', value: 'NAME', meaning: 'through this pickup, with its load' },
    position: { type: 'text', value: 'N', meaning: 'through this position of the selector' },
    ...POT_OPTIONS,
    string: { type: 'text', value: 'NOTE', meaning: 'the note, as E2, A2 or F#3; E2 unless given' },
    seconds: { type: 'number', value: '1..20', min: 1, max: 20, meaning: 'how long it rings; 4 unless given' },
    compare: { type: 'text', value: 'FILE', meaning: 'another state of the spec, which is heard first, equally loud' },
    force: { type: 'flag', meaning: 'replaces the file where it is already there' },
    ...SOURCE_OPTIONS,
  },
  notes: ['The file is WAV, 48 kHz, 16 bit, one channel. The same spec gives the same sound.'],
  example: {
    line: 'pickup-spec listen samples/quorl.pickup --position 2 --tone 5 --string A2 -o quorl-2.wav',
    meaning: 'two pickups together with the tone half down',
  },
  async run(values, [file = ''], context) {
    if (values.output === undefined) throw new CommandError('listen needs a file to write: -o FILE.wav');
    if (values.pickup !== undefined && values.position !== undefined) {
      throw new CommandError('--pickup and --position exclude each other: a position belongs to an instrument');
    }
    const note = values.string ?? 'E2';
    const frequencyHz = noteHz(note);
    if (frequencyHz === undefined || frequencyHz < LOWEST_HZ || frequencyHz > HIGHEST_HZ) {
      throw new CommandError(`--string ${note.slice(0, 40)}: a note from A0 to E6 is needed, as E2`);
    }
    const now = await requireSource(file, values, context);
    const before =
      values.compare === undefined
        ? undefined
        : await requireSource(values.compare, { ...values, 'stdin-path': undefined }, context);
    const pots = { volume: values.volume ?? 10, tone: values.tone ?? 10 };
    const wanted = { pickup: values.pickup, position: values.position, pots };
    const sources = before === undefined ? [now] : [before, now];
    const played = sources.map((source) => playedOf(analyseSource(source, context), wanted, source.shown));
    const sounds = heard(
      played.map(({ response }) => response),
      { frequencyHz, seconds: values.seconds ?? 4, seed: 1 },
    );
    context.progress.clear();
    const target = path.resolve(context.cwd, values.output);
    writeFile(target, wavBytes(inTurn(sounds)), { replace: values.force });
    played.forEach(({ words }, index) => {
      const order = played.length === 1 ? '' : index === 0 ? 'first ' : 'then ';
      context.stderr.write(`${order}${visible(words)}\n`);
    });
    for (const line of LEFT_OUT) context.stderr.write(`${line}\n`);
    context.stdout.write(`${visible(shownPath(target, context.cwd))}\n`);
    return 0;
  },
});

/** From the lowest string of a bass in a low tuning to the highest fret. */
const LOWEST_HZ = 27;
const HIGHEST_HZ = 1400;

interface Wanted {
  readonly pickup: string | undefined;
  readonly position: string | undefined;
  readonly pots: { readonly volume: number; readonly tone: number };
}

interface Played {
  readonly response: FrequencyResponse;
  readonly words: string;
}

function playedOf(analysis: Analysis, wanted: Wanted, shown: string): Played {
  const [onlyInstrument] = analysis.instruments;
  const throughPosition =
    wanted.position !== undefined || (wanted.pickup === undefined && onlyInstrument !== undefined);
  return throughPosition ? positionPlayed(analysis, wanted, shown) : pickupPlayed(analysis, wanted, shown);
}

function positionPlayed({ instruments }: Analysis, { position, pots }: Wanted, shown: string): Played {
  const all = instruments.flatMap((each) => each.positions(pots).map((estimates) => ({ each, estimates })));
  const [first] = all;
  if (first === undefined) throw new CommandError(`${shown} holds no selector position to play through`);
  const name = position ?? first.estimates.key;
  const { each, estimates } = choose(all, (one) => one.estimates.key, { what: 'position', name, shown });
  const title = each.instrument.title ?? each.instrument.name;
  const words = `${title}, position ${name}: volume ${pots.volume}, tone ${pots.tone}`;
  if (!estimates.response) throw new CommandError(`${title}, position ${name}: its response is not known; ${SETTLES}`);
  return { response: estimates.response, words };
}

function pickupPlayed({ pickups, bench }: Analysis, { pickup }: Wanted, shown: string): Played {
  const [first, another] = pickups;
  if (first === undefined) throw new CommandError(`${shown} holds no pickup to play through`);
  if (pickup === undefined && another !== undefined) {
    const names = pickups.slice(0, 20).map((each) => each.pickup.name);
    throw new CommandError(`${shown} holds several pickups; --pickup NAME says which: ${names.join(', ')}`);
  }
  const name = pickup ?? first.pickup.name;
  const chosen = choose(pickups, (each) => each.pickup.name, { what: 'pickup', name, shown });
  const title = chosen.pickup.title ?? chosen.pickup.name;
  // Without these the coils' inductances are not known, and a response would be a guess.
  const response = chosen.estimates().inductanceH && pickupResponse(quickOf(bench)(chosen.pickup));
  if (!response) throw new CommandError(`${title}: its response is not known; ${SETTLES}`);
  return { response, words: `${title}, ${DEFAULT_LOAD.words}` };
}

const SETTLES = 'bobbin, wire and turns (or a reading) of each coil settle it';
