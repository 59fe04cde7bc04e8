import { block, fact } from './block-schema.ts';
import { accept, note, positive } from './common.ts';
import { label, many, percent, quantity, sequence } from './shape.ts';

export const potting = block({
  keyword: 'potting',
  head: sequence({}),
  names: undefined,
  like: false,
  meaning: 'the wax bath that stops the pickup from howling',
  example: 'potting {\n  wax paraffin 80 % beeswax 20 %\n  bath 63 degC\n  soak 20 min\n  batch 400 g\n}',
  blocks: [],
  topLevel: false,
  facts: {
    wax: fact({
      word: 'wax',
      shape: many(
        sequence({ ingredient: label('paraffin', 'beeswax', 'microcrystalline', 'carnauba'), share: percent }),
      ),
      repeats: false,
      meaning: 'the mix by mass; the parts sum to 100 %',
      example: 'wax paraffin 80 % beeswax 20 %',
    }),
    bath: fact({
      word: 'bath',
      shape: quantity('temperature'),
      repeats: false,
      meaning: 'temperature of the wax',
      example: 'bath 63 degC',
    }),
    soak: fact({
      word: 'soak',
      shape: quantity('time', positive),
      repeats: false,
      meaning: 'how long the pickup stays in the bath',
      example: 'soak 20 min',
    }),
    batch: fact({
      word: 'batch',
      shape: quantity('mass', positive),
      repeats: false,
      meaning: 'mass of the whole mix; gives the mass of each part',
      example: 'batch 400 g',
    }),
    notes: note,
    accept,
  },
});
