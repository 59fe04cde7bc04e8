import { block, fact } from './block-schema.ts';
import { accept, note, positive } from './common.ts';
import { label, many, percent, quantity, sequence } from './shape.ts';

export const potting = block({
  keyword: 'potting',
  meaning: 'the wax bath that stops the pickup from howling',
  example: 'potting {\n  wax paraffin 80 % beeswax 20 %\n  bath 63 degC\n  soak 20 min\n  batch 400 g\n}',
  facts: {
    wax: fact({
      shape: many(
        sequence({ ingredient: label('paraffin', 'beeswax', 'microcrystalline', 'carnauba'), share: percent }),
      ),
      meaning: 'the mix by mass; the parts sum to 100 %',
      example: 'wax paraffin 80 % beeswax 20 %',
    }),
    bath: fact({
      shape: quantity('temperature'),
      meaning: 'temperature of the wax',
      example: 'bath 63 degC',
    }),
    soak: fact({
      shape: quantity('time', positive),
      meaning: 'how long the pickup stays in the bath',
      example: 'soak 20 min',
    }),
    batch: fact({
      shape: quantity('mass', positive),
      meaning: 'mass of the whole mix; gives the mass of each part',
      example: 'batch 400 g',
    }),
    notes: note,
    accept,
  },
});
