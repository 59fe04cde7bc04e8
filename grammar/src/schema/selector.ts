import { block, fact } from './block-schema.ts';
import { accept } from './common.ts';
import { comma, count, keyword, optional, selection, sequence, text } from './shape.ts';

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
        onPurpose: optional(sequence({ comma: optional(comma), on: keyword('on purpose') })),
      }),
      repeats: true,
      meaning:
        'a switch position: which pickups or single coils sound, joined by series and parallel; reversed swaps hot and ground; through puts a resistor in place of the short of a split',
      example: '2 "bridge + middle" bridge.slug parallel middle',
    }),
    accept,
  },
});
