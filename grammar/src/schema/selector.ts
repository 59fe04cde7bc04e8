import { block, fact } from './block-schema.ts';
import { accept } from './common.ts';
import { comma, count, keyword, many, name, optional, selection, sequence, text } from './shape.ts';
import { detent } from './switch.ts';

export const selector = block({
  keyword: 'selector',
  meaning: 'the positions of the switch, numbered from 1, push-pull positions too',
  example: 'selector {\n  1 "bridge" bridge\n  2 "both" bridge.slug parallel neck\n}',
  facts: {
    position: fact({
      wordless: true,
      shape: sequence({
        key: count({ min: 1, key: true }),
        title: optional(text),
        selection,
        at: optional(
          sequence({
            comma: optional(comma),
            at: keyword('at'),
            detents: many(sequence({ slot: name('slot'), detent })),
          }),
        ),
        onPurpose: optional(sequence({ comma: optional(comma), on: keyword('on purpose') })),
      }),
      repeats: true,
      meaning:
        'a switch position: which pickups or single coils sound, joined by series and parallel; reversed swaps hot and ground; through puts a resistor in place of the short of a split; at says where each switch stands, one that is not named in its first detent: with one switch, left out, position n is its n-th detent',
      example: '2 "bridge + middle" bridge.slug parallel middle',
    }),
    accept,
  },
});
