import { existsSync } from 'node:fs';
import path from 'node:path';
import { HAND_OVER_SECTIONS } from '../documents/cards/card.ts';
import { PAPERS } from '../documents/cards/card-css.ts';
import { CARD_KINDS } from '../documents/cards/card-kinds.ts';
import { cardFileNames, cardPage, cardsOf } from '../documents/cards/cards.ts';
import { handedOverWith, photoCopies } from '../documents/photographs.ts';
import { benchRoomC } from '../model/bench.ts';
import { LANGUAGES, languageOf } from '../words/languages/language.ts';
import { choose } from './choose.ts';
import { findChromium, pdfOf } from './chromium.ts';
import { CommandError, defineCommand } from './command.ts';
import { filesOf, photoBytes, shownInWorkspace, shownPath, workspaceRoot } from './files.ts';
import { chosenOf } from './meant.ts';
import { roomCelsius } from './room.ts';
import { analyseSource, requireSource, SOURCE_OPTIONS, WITHOUT_OPTION } from './source.ts';
import { visible } from './visible.ts';
import { writeOutput } from './write-file.ts';

export const cards = defineCommand({
  name: 'cards',
  summary: `printable pages: ${CARD_KINDS.join(', ')}`,
  positionals: 'FILE',
  options: {
    output: { type: 'text', value: 'DIR', short: 'o', meaning: 'the folder to write into; it is needed' },
    card: { type: 'text', value: 'CARD,…', meaning: `which cards: ${CARD_KINDS.join(', ')}; all unless given` },
    pickup: { type: 'text', value: 'NAME', meaning: 'only the cards of this pickup' },
    paper: { type: 'choice', choices: PAPERS, meaning: 'the paper they are printed on' },
    room: {
      type: 'text',
      value: 'TEMPERATURE',
      meaning: "today's temperature, as 23 or 23degC; the bench's room unless given",
    },
    'hand-over': {
      type: 'text',
      value: 'SECTION,…',
      meaning: `what stands on the hand-over card, in this order: ${HAND_OVER_SECTIONS.join(', ')}`,
    },
    field: {
      type: 'list',
      value: '"TITLE: TEXT"',
      meaning: 'one more field of the hand-over card, or the text of one of its sections; without a text it is blank',
    },
    photos: {
      type: 'flag',
      meaning:
        'puts the photographs on the hand-over card, without place, time and whatever else a camera wrote into them',
    },
    language: { type: 'choice', choices: LANGUAGES, meaning: 'the language of the cards' },
    pdf: { type: 'flag', meaning: 'prints each page to a PDF too, where a Chromium is at hand' },
    force: { type: 'flag', meaning: 'replaces files that are already there' },
    ...WITHOUT_OPTION,
    ...SOURCE_OPTIONS,
  },
  notes: [
    'Each card is one HTML file that needs nothing else. What is left out, and why, is told on standard error. What passes\n' +
      "is the meter's limit and two standard deviations of what is computed, together.",
  ],
  example: {
    line: 'pickup-spec cards samples/withen-bridge.pickup -o cards --card winding,bench --room 23degC',
    meaning: 'what to lay beside the winder and the meter today',
  },
  async run(values, [file = ''], context) {
    if (values.output === undefined) throw new CommandError('cards needs a folder to write into: -o DIR');
    const kinds = listOf('--card', values.card, CARD_KINDS);
    const handOver = listOf('--hand-over', values['hand-over'], HAND_OVER_SECTIONS);
    const stated = values.room === undefined ? undefined : roomCelsius(values.room);
    const chromium = values.pdf ? findChromium(context.environment, context.cwd) : undefined;
    if (values.pdf && chromium === undefined) {
      throw new CommandError('--pdf needs Chromium or Chrome: install one, or set CHROMIUM to its path');
    }
    const source = await requireSource(file, values, context);
    const analysis = analyseSource(source, context);
    if (values.pickup !== undefined) {
      const wanted = { what: 'pickup', name: values.pickup, shown: source.shown };
      choose(analysis.pickups, ({ pickup }) => pickup.name, wanted);
    }
    const setting = {
      paper: values.paper,
      t: languageOf(values.language),
      roomC: stated ?? benchRoomC(analysis.bench),
      file: shownInWorkspace(source.file, workspaceRoot(source.file, values.root, context.cwd)),
      handOver,
      handOverFields: values.field.map(fieldOf),
      photos: values.photos ? await photoCopies(analysis, handedOverWith(analysis), photoBytes) : undefined,
    };
    const made = cardsOf({ analysis, setting }, kinds, values.pickup);
    context.progress.clear();
    for (const { kind, about, reason } of made.leftOut) {
      context.stderr.write(`no ${kind} card of ${visible(about)}: ${reason}\n`);
    }
    if (made.cards.length === 0) context.stderr.write(`${visible(source.shown)} gives none of these cards\n`);
    const folder = path.resolve(context.cwd, values.output);
    const targets = cardFileNames(made.cards).map((name) => path.join(folder, name));
    if (!values.force) refuseToReplace(targets, chromium !== undefined, context.cwd);
    for (const [index, card] of made.cards.entries()) {
      const target = targets[index] ?? '';
      context.progress.step(shownPath(target, context.cwd));
      const html = await cardPage(card, setting.paper);
      const pdf = chromium === undefined ? undefined : await pdfOf(html, chromium);
      context.progress.clear();
      const files = [[`${target}.html`, html] as const, ...(pdf ? [[`${target}.pdf`, pdf] as const] : [])];
      for (const [name, content] of files) {
        await writeOutput(name, content, { replace: values.force, madeFrom: filesOf(analysis) }, context);
      }
    }
    return 0;
  },
});

function listOf<T extends string>(option: string, list: string | undefined, known: readonly T[]): readonly T[] {
  if (list === undefined) return known;
  const names = list.split(',').map((each) => each.trim());
  return [...new Set(names)].map((name) => chosenOf(option, name, known));
}

function fieldOf(written: string): { readonly title: string; readonly text: string } {
  const at = written.indexOf(':');
  if (at < 0) return { title: written.trim(), text: '' };
  return { title: written.slice(0, at).trim(), text: written.slice(at + 1).trim() };
}

/** All or nothing: a set of cards half old and half new is worse than none. */
function refuseToReplace(targets: readonly string[], pdf: boolean, cwd: string): void {
  const files = targets.flatMap((target) => [`${target}.html`, ...(pdf ? [`${target}.pdf`] : [])]);
  const there = files.find((file) => existsSync(file));
  if (there === undefined) return;
  throw new CommandError(`${shownPath(there, cwd)}: is already there; --force replaces it; nothing was written`);
}
