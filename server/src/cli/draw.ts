import { execFileSync } from 'node:child_process';
import path from 'node:path';
import type { Analysis, InstrumentAnalysis, PickupAnalysis, Played } from '../analysis/analysis-types.ts';
import { newestOf } from '../analysis/newest.ts';
import { reworkOf } from '../comparison/reworks.ts';
import type { DrawingWidth, PlotWidth } from '../documents/drawing-sheet.ts';
import { impedancePicture, impedancePlot } from '../documents/impedance-plot.ts';
import { instrumentPicture } from '../documents/instrument-diagram/from-model.ts';
import { instrumentDiagram } from '../documents/instrument-diagram/instrument-diagram.ts';
import { positionsPicture, positionsSheet } from '../documents/positions-sheet.ts';
import { beforeAfterPicture } from '../documents/response-plot/before-after.ts';
import {
  noResponseWords,
  pickupResponsePicture,
  positionResponsePicture,
  quickOfBench,
} from '../documents/response-plot/from-model.ts';
import { responsePlot } from '../documents/response-plot/response-plot.ts';
import { switchPicture } from '../documents/switch-diagram/from-model.ts';
import { switchDiagram } from '../documents/switch-diagram/switch-diagram.ts';
import { pickupPicture } from '../documents/wiring-diagram/from-model.ts';
import { drawPickup } from '../documents/wiring-diagram/wiring-diagram.ts';
import { loadOf } from '../estimates/pickup-estimates.ts';
import { sweptInBoth, sweptTwice } from '../estimates/sweep-comparison.ts';
import { ENGLISH } from '../words/languages/language.ts';
import { CABLE_MEANING, cableFarads } from './cable-option.ts';
import { choose, chooseOnly } from './choose.ts';
import { CommandError, defineCommand } from './command.ts';
import type { Context } from './context.ts';
import { filesOf } from './files.ts';
import { POT_OPTIONS, playedBy } from './pot-options.ts';
import { findProgram } from './program.ts';
import { type Analysed, analysed, SOURCE_OPTIONS, WITHOUT_OPTION } from './source.ts';
import { writeOutput } from './write-file.ts';

/** What there is of drawings and of plots. */
type PrintedWidth = DrawingWidth & PlotWidth;

export const draw = defineCommand({
  name: 'draw',
  summary:
    'a picture: the wiring of a pickup, the schematic, all positions or the switches of an instrument, a response',
  positionals: 'FILE',
  options: {
    view: {
      type: 'choice',
      choices: ['wiring', 'schematic', 'response', 'positions', 'switch', 'impedance', 'before-after'],
      meaning: 'what is drawn',
    },
    output: {
      type: 'text',
      value: 'OUT.svg',
      short: 'o',
      meaning:
        'the file to write, standard output unless given; a name in .png makes a PNG where rsvg-convert is at hand',
    },
    pickup: { type: 'text', value: 'NAME', meaning: 'which pickup, where the file holds several' },
    instrument: { type: 'text', value: 'NAME', meaning: 'which instrument, where the file holds several' },
    position: {
      type: 'text',
      value: 'N',
      meaning:
        'the response of this position of the selector, at the jack; in the schematic, of the positions and of the switches, the live one',
    },
    ...POT_OPTIONS,
    cable: { type: 'text', value: 'CABLE', meaning: `of a response; ${CABLE_MEANING}` },
    compare: {
      type: 'text',
      value: 'FILE',
      meaning:
        'the response, or the sweep, of the same part in another file, as before; a pickup that was reworked has its own',
    },
    width: { type: 'choice', choices: ['wide', 'narrow'], meaning: 'laid out for a page or for a narrow column' },
    force: { type: 'flag', meaning: 'replaces the file where it is already there' },
    ...WITHOUT_OPTION,
    ...SOURCE_OPTIONS,
  },
  example: {
    line: 'pickup-spec draw samples/hesk-neck.pickup -o hesk-neck.svg',
    meaning: 'coils seen from the strings, every lead named, findings on the drawing',
  },
  async run(values, [file = ''], context) {
    if (OF_A_PICKUP.has(values.view) && values.position !== undefined) {
      throw new CommandError('--position belongs to --view schematic, response, positions and switch');
    }
    const isResponse = values.view === 'response' || values.view === 'before-after';
    if (!isResponse && values.compare !== undefined) {
      throw new CommandError(
        '--compare belongs to --view response and before-after; the command compare shows two wirings',
      );
    }
    if (!isResponse && values.cable !== undefined) {
      throw new CommandError('--cable belongs to --view response and before-after');
    }
    const cableF = cableFarads(values.cable);
    const now = await analysed(file, values, context);
    const played = { ...playedBy(values, now), cableF };
    const svg = await picture();
    context.progress.clear();
    if (values.output === undefined) {
      context.stdout.write(svg);
      return 0;
    }
    const content = path.extname(values.output).toLowerCase() === '.png' ? png(svg, values.output, context) : svg;
    await writeOutput(values.output, content, { replace: values.force, madeFrom: filesOf(now.analysis) }, context);
    return 0;

    async function picture(): Promise<string> {
      if (values.view === 'wiring') return wiring(now, values.pickup, values.width);
      if (values.view === 'impedance') return impedance(now, values.pickup, values.width);
      if (values.view !== 'response' && values.view !== 'before-after') return whole(now, values.view, values, played);
      const before = values.compare === undefined ? undefined : await analysed(values.compare, values, context);
      if (values.view === 'before-after') return beforeAfter(now, before, values.pickup, values.width, cableF);
      const response =
        values.position === undefined
          ? pickupResponse(now, before, values.pickup, cableF)
          : positionResponse(now, before, values.instrument, values.position, played);
      if (response !== undefined) return responsePlot(response, values.width);
      const known =
        values.position === undefined
          ? chosenPickup(now.analysis, values.pickup, now.shown).estimates(cableF)
          : chosenInstrument(now.analysis, values.instrument, now.shown, values.position)
              .positions(played)
              .find(({ key }) => key === values.position);
      throw new CommandError(`${now.shown}: ${noResponseWords(known)}`);
    }
  },
});

const OF_A_PICKUP: ReadonlySet<string> = new Set(['wiring', 'impedance', 'before-after']);

function wiring({ analysis, shown }: Analysed, name: string | undefined, width: PrintedWidth): string {
  return drawPickup(pickupPicture(analysis, chosenPickup(analysis, name, shown)), width).svg;
}

function impedance({ analysis, shown }: Analysed, name: string | undefined, width: PrintedWidth): string {
  const pickup = chosenPickup(analysis, name, shown);
  const picture = impedancePicture(pickup, quickOfBench(analysis));
  if (picture === undefined)
    throw new CommandError(
      `${shown}: there is no impedance to draw: a coil lacks its turns, its bobbin or its wire, and no sweep tells it`,
    );
  return impedancePlot(picture, width);
}

/** Two sweeps of one pickup: of its own text, or one of each file. */
function beforeAfter(
  now: Analysed,
  before: Analysed | undefined,
  name: string | undefined,
  width: PrintedWidth,
  cableF: number | undefined,
): string {
  const quickIn = ({ analysis, shown }: Analysed) => quickOfBench(analysis)(chosenPickup(analysis, name, shown).pickup);
  const quick = quickIn(now);
  const pair = before ? sweptInBoth(quickIn(before), quick) : sweptTwice(quick);
  if (pair === undefined)
    throw new CommandError(
      before
        ? `${now.shown}: no other sweep between hot and ground stands in ${before.shown}`
        : `${now.shown}: no pickup was swept twice between hot and ground`,
    );
  const { pickup } = quick.netlist;
  const names = before && { before: before.shown, now: now.shown };
  return responsePlot(beforeAfterPicture(pair, pickup, loadOf(pickup, cableF), ENGLISH, names), width);
}

function pickupResponse(
  now: Analysed,
  before: Analysed | undefined,
  name: string | undefined,
  cableF: number | undefined,
) {
  const stateOf = ({ analysis, shown }: Analysed) => ({
    analysis,
    pickup: chosenPickup(analysis, name, shown),
    cableF,
  });
  const state = stateOf(now);
  const own = before ? undefined : reworkOf(now.analysis, [state.pickup.pickup]);
  const former = own?.before.pickups[0];
  if (own && former) {
    const names = { before: own.label(ENGLISH), now: state.pickup.pickup.name };
    return pickupResponsePicture(state, { analysis: own.before, pickup: former, cableF }, { names });
  }
  return pickupResponsePicture(state, before && stateOf(before), {
    names: { before: before?.shown ?? '', now: now.shown },
  });
}

function positionResponse(
  now: Analysed,
  before: Analysed | undefined,
  name: string | undefined,
  position: string,
  played: Played,
) {
  const stateOf = ({ analysis, shown }: Analysed) => ({
    analysis,
    instrument: chosenInstrument(analysis, name, shown, position),
  });
  const state = stateOf(now);
  const { slots } = state.instrument.instrument;
  const own = before
    ? undefined
    : reworkOf(
        now.analysis,
        slots.flatMap(({ pickup }) => pickup ?? []),
      );
  const former = own?.before.instruments.find(({ instrument }) => instrument.name === state.instrument.instrument.name);
  return positionResponsePicture(state, position, {
    played,
    before: own && former ? { analysis: own.before, instrument: former } : before && stateOf(before),
    names: { before: own?.label(ENGLISH) ?? before?.shown ?? '', now: own ? 'now' : now.shown },
  });
}

/** All of an instrument: with its contacts, or position by position; one of them is emphasised where it is named. */
function whole(
  { analysis, shown }: Analysed,
  view: 'schematic' | 'positions' | 'switch',
  { instrument: name, position: live, width }: WholeValues,
  played: Played,
): string {
  const instrument = chosenInstrument(analysis, name, shown, live);
  if (view === 'schematic') return instrumentDiagram(instrumentPicture(analysis, instrument, { played, live }), width);
  if (view === 'switch') {
    const lugs = switchPicture(analysis, instrument, live);
    if (lugs === undefined)
      throw new CommandError(`${shown}: the instrument has no wiring that is known to the last lug`);
    return switchDiagram(lugs, width);
  }
  const picture = positionsPicture(analysis, instrument, { played, live });
  if (picture === undefined) throw new CommandError(`${shown}: the instrument has no positions`);
  return positionsSheet(picture, width);
}

interface WholeValues {
  readonly instrument: string | undefined;
  readonly position: string | undefined;
  readonly width: PrintedWidth;
}

function chosenPickup({ pickups }: Analysis, name: string | undefined, shown: string): PickupAnalysis {
  const wanted = { what: 'pickup', name, shown, use: ' to draw' };
  return chooseOnly(pickups, ({ pickup }) => pickup.name, wanted, newestOf(pickups));
}

/** One that has the position, where one is named. */
function chosenInstrument(
  { instruments }: Analysis,
  name: string | undefined,
  shown: string,
  position: string | undefined,
): InstrumentAnalysis {
  const wanted = { what: 'instrument', name, shown, use: ' to draw' };
  const chosen = chooseOnly(instruments, ({ instrument }) => instrument.name, wanted);
  if (position !== undefined)
    choose(chosen.instrument.positions, ({ key }) => key.value, { what: 'position', name: position, shown });
  return chosen;
}

/** Twice the size of the SVG, for screens with small pixels. */
const PNG_ZOOM = '2';

function png(svg: string, output: string, { environment, cwd }: Context): Uint8Array {
  const program = findProgram('rsvg-convert', environment, cwd);
  if (program === undefined) {
    const what = 'a PNG needs rsvg-convert (Debian package librsvg2-bin); a name in .svg needs nothing';
    throw new CommandError(`${output}: ${what}`);
  }
  try {
    return execFileSync(program, ['--zoom', PNG_ZOOM, '--format', 'png'], {
      input: svg,
      stdio: ['pipe', 'pipe', 'ignore'],
      maxBuffer: 256 * 1024 * 1024,
    });
  } catch {
    throw new CommandError(`${output}: rsvg-convert could not make a PNG of the drawing`);
  }
}
