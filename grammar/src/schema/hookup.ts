import { block, fact } from './block-schema.ts';
import { accept } from './common.ts';
import { keyword, path, unordered } from './shape.ts';

export const hookup = block({
  keyword: 'hookup',
  meaning: "which leads are joined inside the pickup; a coil's end may also be named slug.start",
  example: 'hookup {\n  hot violet\n  link grey turquoise\n  ground pink bare\n}',
  facts: {
    hot: fact({
      shape: unordered(path('lead')),
      repeats: true,
      meaning: 'the lead that carries the signal out',
      example: 'hot violet',
    }),
    link: fact({
      shape: unordered(path('lead'), 2),
      repeats: true,
      meaning: 'leads joined to each other, such as the series link; as many links as there are joints',
      example: 'link grey turquoise',
    }),
    ground: fact({
      shape: unordered(path('lead')),
      repeats: true,
      meaning: 'the end opposite to hot, and what is joined to it',
      example: 'ground pink bare',
    }),
    shield: fact({
      shape: unordered(path('lead')),
      repeats: true,
      meaning: 'what goes to ground by itself, so that the pickup can be reversed',
      example: 'shield bare',
    }),
    free: fact({
      shape: unordered(path('lead')),
      repeats: true,
      meaning: 'joined to nothing here: taped off, or for a switch',
      example: 'free orange',
    }),
    onPurpose: fact({
      word: 'on',
      shape: keyword('purpose'),
      meaning: 'says that an out-of-phase or humming result is meant',
      example: 'on purpose',
    }),
    accept,
  },
});
