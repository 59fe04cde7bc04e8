/** What a state of the switches is called, and what is heard and left silent in it. */
import type { WiredState, WiredStates } from '../estimates/switch-states.ts';
import type { Instrument, Selection } from '../model/instrument.ts';
import { foldSelection } from '../model/selection.ts';
import { ENGLISH, type PlainText } from './languages/language.ts';
import { selectionWords } from './selections.ts';
import { list } from './text.ts';

/** The detent of each switch by its name. */
export const detentsAt = (
  { switches }: Pick<Instrument, 'switches'>,
  state: WiredState['state'],
): readonly (readonly [string, string])[] =>
  switches.map(({ name, part }, index) => [name, part?.detents[state[index] ?? 0]?.name ?? '']);

/** `lever 2`, `ways middle, pull up`. */
export const stateWords = (instrument: Pick<Instrument, 'switches'>, state: WiredState['state']): string =>
  detentsAt(instrument, state)
    .map((each) => each.join(' '))
    .join(', ');

/** `a0–a2, b0–b2`, what is closed onto something; with several switches each lug by its switch. */
export function contactWords(
  { contacts }: Pick<WiredState, 'contacts'>,
  { switches }: Pick<Instrument, 'switches'>,
  t = ENGLISH,
): string {
  const lug = (terminal: string) => (switches.length === 1 ? terminal.slice(terminal.indexOf('.') + 1) : terminal);
  return contacts.length === 0 ? t('none') : contacts.map((group) => group.map(lug).join('–')).join(', ');
}

/** What is heard: `bridge slug ∥ middle`, `silent`, `silent: hot lies on ground`. */
export function heardWords({ soldered }: Pick<WiredState, 'soldered'>, t = ENGLISH): string {
  const { fault, words } = soldered;
  if (fault === 'shorted') return t('silent: hot lies on ground');
  const heard = selectionWords(soldered, t);
  return fault || words ? heard : t('{0}, for which the selector has no word', heard);
}

/** `, not neck`: behind what is heard, where a position of the state says something else. */
export function notAskedWords({ positions }: WiredStates, { positions: own }: WiredState, t = ENGLISH): string {
  const wrong = positions.filter(({ position, verdict }) => verdict === 'differs' && own.includes(position));
  const asked = wrong.flatMap(({ position }) => (position.selection ? [selectionText(position.selection)] : []));
  return asked.length === 0 ? '' : t(', not {0}', list(asked, t('or')));
}

const ON = {
  ground: 'on ground',
  hot: 'on hot',
  link: 'on an inner joint',
  none: 'in the air',
} as const satisfies Readonly<Record<string, PlainText>>;

/** `open on ground: neck.screw and neck.slug`: the coils that are not heard, by how each is left. */
export function deadWords({ meaning: { dead } }: Pick<WiredState, 'meaning'>, t = ENGLISH): readonly string[] {
  const alike = new Map<string, string[]>();
  for (const [coil, { closed, on }] of dead) {
    const left = `${t(closed === 'looped' ? 'in a ring' : closed)} ${t(ON[on])}`;
    alike.set(left, [...(alike.get(left) ?? []), coil]);
  }
  return [...alike].map(([left, coils]) => `${left}: ${list(coils, t('and'))}`);
}

/** As the selector writes it: `bridge.slug parallel middle`. */
export const selectionText = (selection: Selection): string =>
  foldSelection<{ readonly text: string; readonly binds: 'tight' | 'series' | 'parallel' }>(selection, {
    part: (part) => ({
      text:
        part.kind === 'coil' && part.throughOhm
          ? `${part.path.text} through ${part.throughOhm.value.written}`
          : part.path.text,
      binds: 'tight',
    }),
    reversed: ({ text, binds }) => ({ text: `reversed ${binds === 'tight' ? text : `(${text})`}`, binds: 'tight' }),
    joined: (of, how) => ({
      text: of.map(({ text, binds }) => (binds === 'parallel' ? `(${text})` : text)).join(` ${how} `),
      binds: how,
    }),
    nets: (nets) => ({ text: selectionWords(nets), binds: 'tight' }),
  }).text;
