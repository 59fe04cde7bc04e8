import { block, fact } from './block-schema.ts';
import { accept, MAGNET_MATERIALS, note, positive } from './common.ts';
import { declares, quantity, sequence, size, word } from './shape.ts';

export const magnet = block({
  keyword: 'magnet',
  head: sequence({ name: declares('magnet') }),
  names: 'magnet',
  like: true,
  meaning: 'a bar magnet that lies under the coils',
  example: 'magnet short-bar {\n  material alnico-5\n  size 63.5 x 12.7 x 3.2 mm\n}',
  topLevel: true,
  facts: {
    material: fact({
      shape: word(...MAGNET_MATERIALS),
      insteadOf: ['remanence', 'coercivity'],
      meaning: 'grade of the magnet; another grade is stated by its remanence and coercivity',
      example: 'material alnico-5',
    }),
    remanence: fact({
      shape: quantity('flux density', positive),
      insteadOf: ['material'],
      meaning: 'flux density that remains without an outer field, where it is known instead of the grade',
      example: 'remanence 1.24 T',
    }),
    coercivity: fact({
      shape: quantity('field strength', positive),
      insteadOf: ['material'],
      meaning: 'field that brings the flux density to nothing; stands beside remanence',
      example: 'coercivity 51 kA/m',
    }),
    size: fact({
      shape: size('length', 'length', 'width', 'thickness'),
      meaning: 'length x width x thickness; magnetised across the width',
      example: 'size 63.5 x 12.7 x 3.2 mm',
    }),
    notes: note,
    accept,
  },
});
