import { block, fact } from './block-schema.ts';
import { accept, note } from './common.ts';
import { count, declares, keyword, many, name, oneOf, optional, sequence, text, word } from './shape.ts';

/** `3` or `up`: what a detent is called. */
export const detent = oneOf({ number: count({ min: 1, key: true }), name: name('detent') });

export const switchPart = block({
  keyword: 'switch',
  head: sequence({ name: declares('switch'), title: optional(text) }),
  names: 'switch',
  like: true,
  meaning: 'a switch by its contact table: which lugs are one in which detent; no kind of switch is known beyond that',
  example:
    'switch push-pull-two "two poles, two throws, on a pot" {\n  row a1 a0 a2\n  row b1 b0 b2\n  detent down joins a0 a1, joins b0 b1\n  detent up joins a0 a2, joins b0 b2\n}',
  topLevel: true,
  facts: {
    rows: fact({
      word: 'row',
      shape: many(name('lug')),
      repeats: true,
      assumed: 'a row for each pole, its common first',
      meaning: 'lugs in a row as they lie, seen from the soldering side',
      example: 'row a1 a0 a2',
    }),
    poles: fact({
      word: 'pole',
      shape: sequence({ common: name('lug'), to: keyword('to'), throws: many(name('lug')) }),
      repeats: true,
      meaning: 'a common and its throws: in the n-th detent it meets the n-th of them; none: there it meets nothing',
      example: 'pole a0 to a1 a2 a3 a4 a5',
    }),
    detents: fact({
      word: 'detent',
      shape: sequence({
        detent,
        title: optional(text),
        contacts: oneOf({
          open: keyword('open'),
          joins: many(sequence({ joins: keyword('joins'), lugs: many(name('lug'), 2) })),
        }),
      }),
      repeats: true,
      meaning:
        'all that is closed in a detent, the lines in the order of travel; beside pole lines it replaces the whole of that detent; open: nothing is closed',
      example: 'detent up joins a0 a2, joins b0 b2',
    }),
    travel: fact({
      shape: word('make-before-break', 'break-before-make'),
      assumed: 'not known: both are tried, and only what holds in both is told',
      meaning: 'what lies between two detents: contacts of both, or only what both have',
      example: 'travel make-before-break',
    }),
    notes: note,
    accept,
  },
});
