import { existsSync } from 'node:fs';
import path from 'node:path';
import {
  isAsked,
  MEASURE_NAMES,
  type Measured,
  measureIn,
  NEW_COILS,
  NEW_GAUGES,
  NEW_KINDS,
  NEW_MAGNETS,
  NEW_MEASURES,
  NEW_POLES,
  NEW_POSITIONS,
  NEW_STRINGS,
  type NewAnswers,
  type NewFile,
  usualPole,
} from '../features/new-answers.ts';
import { newSpec } from '../features/new-spec.ts';
import { STARTER_SHOP } from '../features/starter-shop.ts';
import { CommandError, defineCommand } from './command.ts';
import type { Context } from './context.ts';
import { shownPath } from './files.ts';
import { writeOutput } from './write-file.ts';

export const newShop = defineCommand({
  name: 'new',
  summary: 'a starter shop; with --what, one pickup or instrument from a few answers',
  positionals: 'DIR',
  options: {
    what: { type: 'text', value: NEW_KINDS.join('|'), meaning: 'one spec instead of a shop' },
    title: { type: 'text', value: 'TEXT', meaning: 'its title; the file is named after it' },
    strings: { type: 'text', value: NEW_STRINGS.join('|'), meaning: 'for how many strings' },
    coils: { type: 'text', value: NEW_COILS.join('|'), meaning: 'coils of each pickup' },
    position: {
      type: 'text',
      value: NEW_POSITIONS.join('|'),
      meaning: 'where it sits; of an instrument all, with commas',
    },
    leads: { type: 'text', value: 'COLOURS', meaning: 'start and finish of each coil, as in "grey violet"' },
    gauge: { type: 'text', value: NEW_GAUGES.join('|'), meaning: 'of the wire, AWG' },
    measured: {
      type: 'list',
      value: '"NAME: MEASURE"',
      meaning: `what caliper and eye say: pole (${NEW_POLES.join(', ')}), magnet, ${MEASURE_NAMES.join(', ')}; the usual where not given`,
    },
    turns: { type: 'text', value: 'COUNT', meaning: 'turns of each coil; left out where a reading is to tell' },
  },
  notes: [
    'What is not given is asked on a terminal; elsewhere the usual answer is taken.',
    'Writes only files that are not there yet; where one of them is, nothing is written.',
  ],
  example: { line: 'pickup-spec new my-shop && pickup-spec check my-shop', meaning: 'begin, and see that it is clean' },
  async run(values, [name = ''], context) {
    const folder = path.resolve(context.cwd, name);
    const files = values.what === undefined ? STARTER_SHOP : [await specFrom(values, context)];
    const written = files.map(({ path: within, text }) => ({ file: path.join(folder, within), text }));
    const there = written.find(({ file }) => existsSync(file));
    if (there) throw new CommandError(`${shownPath(there.file, context.cwd)}: is already there; nothing was written`);
    for (const { file, text } of written) {
      await writeOutput(file, text, { replace: false }, context);
    }
    return 0;
  },
});

type Given = Readonly<
  Record<'what' | 'title' | 'strings' | 'coils' | 'position' | 'leads' | 'gauge' | 'turns', string | undefined>
> & { readonly measured: readonly string[] };

async function specFrom(given: Given, { ask }: Context): Promise<NewFile> {
  /** The answer given, else asked for, else the usual one. */
  const answer = async (name: Exclude<keyof Given, 'measured'>, question: string, usual: string): Promise<string> => {
    const asked = given[name] ?? (await ask?.(usual === '' ? `${question}: ` : `${question} [${usual}]: `));
    return asked === undefined || asked.trim() === '' ? usual : asked.trim();
  };
  const oneOf = async <const T extends string | number>(
    name: Exclude<keyof Given, 'measured'>,
    question: string,
    choices: readonly T[],
    usual: T,
  ): Promise<T> => {
    const written = await answer(name, `${question} (${choices.join(', ')})`, String(usual));
    const found = choices.find((choice) => String(choice) === written);
    if (found === undefined) throw new CommandError(`--${name} ${written}: one of ${choices.join(', ')}`);
    return found;
  };
  const what = await oneOf('what', 'What', NEW_KINDS, 'pickup');
  const title = await answer('title', 'Title', what === 'pickup' ? 'My first pickup' : 'My first guitar');
  const strings = await oneOf('strings', 'Strings', NEW_STRINGS, 6);
  const coils = await oneOf('coils', 'Coils of each pickup', NEW_COILS, 1);
  const positions = wordsIn(
    await answer('position', `Position (${NEW_POSITIONS.join(', ')})`, what === 'pickup' ? 'bridge' : 'bridge neck'),
  );
  const leads = wordsIn(
    await answer(
      'leads',
      'Leads: start and finish of each coil',
      coils === 1 ? 'grey violet' : 'pink grey turquoise orange',
    ),
  );
  const measured = await measuredFrom(given.measured, coils, ask);
  // Where the wire was measured, nothing more is asked about it.
  const gauge = measured?.wire === undefined ? await oneOf('gauge', 'Wire, AWG', NEW_GAUGES, 42) : 42;
  const turns = await answer('turns', 'Turns of each coil, empty if a reading is to tell', '');
  if (turns !== '' && !/^[1-9]\d{0,5}$/.test(turns))
    throw new CommandError(`--turns ${turns}: a whole number is needed`);
  if (what === 'pickup' && positions.length > 1) throw new CommandError('--position: a pickup sits at one');
  const answers: NewAnswers = {
    what,
    title,
    strings,
    coils,
    positions: positions.map((written) => {
      const found = NEW_POSITIONS.find((each) => each === written);
      if (found === undefined) throw new CommandError(`--position ${written}: one of ${NEW_POSITIONS.join(', ')}`);
      return found;
    }),
    leads,
    parts: { kind: 'described', gauge, ...(measured && { measured }) },
    ...(turns === '' ? {} : { turns: Number(turns) }),
  };
  const made = newSpec(answers);
  if ('problem' in made) throw new CommandError(made.problem);
  return made;
}

/** What was given, else what is asked for on a terminal; `undefined` where nothing was measured. */
async function measuredFrom(
  given: readonly string[],
  coils: number,
  ask: Context['ask'],
): Promise<Measured | undefined> {
  const said = new Map(
    given.map((each) => {
      const [, name = '', value = ''] = /^\s*(\w+)\s*:\s*(.*)$/.exec(each) ?? [];
      if (name !== 'pole' && name !== 'magnet' && !(name in NEW_MEASURES))
        throw new CommandError(`--measured ${each}: begins with one of pole, magnet, ${MEASURE_NAMES.join(', ')}`);
      return [name, value] as const;
    }),
  );
  const isAskedFor =
    said.size === 0 && ask !== undefined && /^y/i.test((await ask('Measured on the bench now (yes, no) [no]: ')) ?? '');
  if (!isAskedFor && said.size === 0) return undefined;
  const answer = async (name: string, question: string): Promise<string | undefined> => {
    const text = (said.get(name) ?? (isAskedFor ? await ask(`${question}: `) : undefined))?.trim();
    return text === '' ? undefined : text;
  };
  const oneOf = <T extends string>(name: string, choices: readonly T[], text: string | undefined): T | undefined => {
    const found = choices.find((each) => each === text);
    if (text !== undefined && found === undefined)
      throw new CommandError(`${name} ${text}: one of ${choices.join(', ')}`);
    return found;
  };
  const pole = oneOf('pole', NEW_POLES, await answer('pole', `Poles (${NEW_POLES.join(', ')})`)) ?? usualPole(coils);
  const magnets = `Grade of the magnet (${NEW_MAGNETS.join(', ')}), empty if not known`;
  const magnet = oneOf('magnet', NEW_MAGNETS, await answer('magnet', magnets));
  const measures: Record<string, string> = {};
  for (const name of MEASURE_NAMES.filter((each) => isAsked(each, pole))) {
    const text = await answer(name, NEW_MEASURES[name].asks);
    if (text !== undefined && measureIn(name, text) === undefined)
      throw new CommandError(`${name} ${text}: ${NEW_MEASURES[name].asks}`);
    if (text !== undefined) measures[name] = text;
  }
  return { pole, ...(magnet && { magnet }), ...measures };
}

const wordsIn = (text: string): readonly string[] => text.split(/[\s,]+/).filter((word) => word !== '');
