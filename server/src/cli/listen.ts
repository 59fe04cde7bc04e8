import path from 'node:path';
import { newestOf } from '../analysis/newest.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { reworkOf } from '../comparison/reworks.ts';
import type { FrequencyResponse } from '../estimates/estimates.ts';
import { DEFAULT_LOAD, pickupResponse } from '../estimates/pickup-estimates.ts';
import type { Played as Pots } from '../estimates/position-network.ts';
import { potWords } from '../estimates/positions.ts';
import type { Pickup } from '../model/pickup.ts';
import { heard, inTurn, isSilentResponse, noteHz, wavBytes } from '../sound/listen.ts';
import { ENGLISH } from '../words/languages/language.ts';
import { LEFT_OUT } from '../words/left-out.ts';
import { marked } from '../words/number-text.ts';
import { SILENT } from '../words/numbers.ts';
import { titleOf } from '../words/parts.ts';
import { untoldWords } from '../words/untold.ts';
import { choose, chooseOnly } from './choose.ts';
import { CommandError, defineCommand } from './command.ts';
import { filesOf, shownPath } from './files.ts';
import { POT_OPTIONS, playedBy } from './pot-options.ts';
import { type Analysed, analysed, SOURCE_OPTIONS } from './source.ts';
import { visible } from './visible.ts';
import { writeFile } from './write-file.ts';

export const listen = defineCommand({
  name: 'listen',
  summary: 'a plucked string through the computed response, as a sound file',
  positionals: 'FILE',
  options: {
    output: { type: 'text', value: 'FILE.wav', short: 'o', meaning: 'the file to write; it is needed' },
    pickup: { type: 'text', value: 'NAME', meaning: 'through this pickup, with its load' },
    position: { type: 'text', value: 'N', meaning: 'through this position of the selector' },
    ...POT_OPTIONS,
    string: { type: 'text', value: 'NOTE', meaning: 'the note, as E2, A2 or F#3; E2 unless given' },
    seconds: { type: 'number', value: '1..20', min: 1, max: 20, meaning: 'how long it rings; 4 unless given' },
    compare: {
      type: 'text',
      value: 'FILE',
      meaning: 'another state, heard first, equally loud; else the one before a rework',
    },
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
    const now = await analysed(file, values, context);
    const before = values.compare && (await analysed(values.compare, { ...values, 'stdin-path': undefined }, context));
    const wanted = { pickup: values.pickup, position: values.position, pots: playedBy(values, now) };
    const part = partOf(now, wanted);
    const past = before ? [required(partOf(before, wanted))] : formerPlayed(now, wanted, part);
    const played = [...past, required(part)];
    const sounds = heard(
      played.map(({ response }) => response),
      { frequencyHz, seconds: values.seconds ?? 4, seed: 1 },
    );
    context.progress.clear();
    const target = path.resolve(context.cwd, values.output);
    await writeFile(target, wavBytes(inTurn(sounds)), { replace: values.force, madeFrom: filesOf(now.analysis) });
    played.forEach(({ words, response }, index) => {
      const order = played.length === 1 ? '' : index === 0 ? 'first ' : 'then ';
      context.stderr.write(`${order}${visible(words)}${isSilentResponse(response) ? `: ${SILENT}` : ''}\n`);
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
  readonly pots: Pots;
}

/** What is played through. */
interface Part {
  readonly words: string;
  readonly response: FrequencyResponse | undefined;
  readonly instrument: string | undefined;
  readonly pickups: readonly Pickup[];
  /** What would tell a response that sweeps leave open. */
  readonly settledBy?: string | undefined;
}

type Played = Part & { readonly response: FrequencyResponse };

function required(part: Part): Played {
  const { response, words, settledBy = `its response is not known; ${SETTLES}` } = part;
  if (!response) throw new CommandError(`${words}: ${settledBy}`);
  return { ...part, response };
}

const SETTLES = 'bobbin, wire and turns (or a reading) of each coil settle it';

/** The same part before its pickups were reworked; nothing where none was, or where its response was not known. */
function formerPlayed({ analysis, shown }: Analysed, wanted: Wanted, now: Part): readonly Played[] {
  const rework = reworkOf(analysis, now.pickups);
  if (rework === undefined) return [];
  const { before, label } = rework;
  const instruments = before.instruments.filter(({ instrument }) => instrument.name === now.instrument);
  const { words, ...part } = partOf({ analysis: { ...before, instruments }, shown }, { ...wanted, pickup: undefined });
  return part.response ? [required({ ...part, words: `${label(ENGLISH)}: ${words}` })] : [];
}

function partOf(now: Analysed, wanted: Wanted): Part {
  const [onlyInstrument] = now.analysis.instruments;
  const throughPosition =
    wanted.position !== undefined || (wanted.pickup === undefined && onlyInstrument !== undefined);
  return throughPosition ? positionPart(now, wanted) : pickupPart(now, wanted);
}

function positionPart({ analysis: { instruments }, shown }: Analysed, { position, pots }: Wanted): Part {
  const all = instruments.flatMap((each) => each.positions(pots).map((estimates) => ({ each, estimates })));
  const [first] = all;
  if (first === undefined) throw new CommandError(`${shown} holds no selector position to play through`);
  const name = position ?? first.estimates.key;
  const { each, estimates } = choose(all, (one) => one.estimates.key, { what: 'position', name, shown });
  const { instrument } = each;
  const title = titleOf(instrument);
  return {
    words: marked(`${title}, position ${name}: ${potWords(instrument, pots)}`, estimates.peakDb),
    response: estimates.response,
    instrument: instrument.name,
    pickups: instrument.slots.flatMap((slot) => slot.pickup ?? []),
    settledBy: estimates.untold && untoldWords(estimates.untold),
  };
}

function pickupPart({ analysis: { pickups, bench }, shown }: Analysed, { pickup: name }: Wanted): Part {
  const wanted = { what: 'pickup', name, shown, use: ' to play through' };
  const chosen = chooseOnly(pickups, ({ pickup }) => pickup.name, wanted, newestOf(pickups));
  return {
    words: marked(`${titleOf(chosen.pickup)}, ${DEFAULT_LOAD.words}`, chosen.estimates().peakDb),
    // Without these the coils' inductances are not known, and a response would be a guess.
    response: chosen.estimates().inductanceH && pickupResponse(quickOf(bench)(chosen.pickup)),
    instrument: undefined,
    pickups: [chosen.pickup],
  };
}
