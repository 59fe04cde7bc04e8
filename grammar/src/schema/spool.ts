import { block, fact } from './block-schema.ts';
import { accept, atTemperature, note, positive } from './common.ts';
import { declares, name, quantity, sequence } from './shape.ts';

export const spool = block({
  keyword: 'spool',
  head: sequence({ name: declares('spool') }),
  names: 'spool',
  like: true,
  meaning: 'one spool of wire on the shelf',
  example: 'spool RYD-W7 {\n  wire heavy-plain\n  left 310 g\n  measures 5.52 ohm/m at 20 degC\n}',
  topLevel: true,
  facts: {
    wire: fact({
      shape: name('wire'),
      meaning: 'the kind of wire on this spool',
      example: 'wire heavy-plain',
    }),
    left: fact({
      shape: quantity('mass', { min: 0 }),
      meaning: 'mass of wire left, without the spool itself',
      example: 'left 310 g',
    }),
    measures: fact({
      shape: sequence({ resistance: quantity('resistance per length', positive), at: atTemperature }),
      assumed: 'the nominal resistance of its gauge, with the tolerance of the standard',
      meaning: 'what the wire on it really has; serves every coil wound from it',
      example: 'measures 5.52 ohm/m at 20 degC',
    }),
    notes: note,
    accept,
  },
});
