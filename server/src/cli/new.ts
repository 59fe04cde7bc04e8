import { existsSync } from 'node:fs';
import path from 'node:path';
import {
  NEW_COILS,
  NEW_GAUGES,
  NEW_KINDS,
  NEW_POSITIONS,
  NEW_STRINGS,
  type NewAnswers,
  type NewFile,
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
>;

async function specFrom(given: Given, { ask }: Context): Promise<NewFile> {
  /** The answer given, else asked for, else the usual one. */
  const answer = async (name: keyof Given, question: string, usual: string): Promise<string> => {
    const asked = given[name] ?? (await ask?.(usual === '' ? `${question}: ` : `${question} [${usual}]: `));
    return asked === undefined || asked.trim() === '' ? usual : asked.trim();
  };
  const oneOf = async <const T extends string | number>(
    name: keyof Given,
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
  const gauge = await oneOf('gauge', 'Wire, AWG', NEW_GAUGES, 42);
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
    parts: { kind: 'described', gauge },
    ...(turns === '' ? {} : { turns: Number(turns) }),
  };
  const made = newSpec(answers);
  if ('problem' in made) throw new CommandError(made.problem);
  return made;
}

const wordsIn = (text: string): readonly string[] => text.split(/[\s,]+/).filter((word) => word !== '');
