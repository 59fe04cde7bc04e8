import { block, fact } from './block-schema.ts';
import { accept, positive } from './common.ts';
import { count, filePath, findingCode, keyword, oneOf, optional, percent, quantity, sequence, word } from './shape.ts';

/** How a finding may be told; `off`: not at all. */
export const LEVELS = ['error', 'warning', 'information', 'hint', 'off'] as const;

export const bench = block({
  keyword: 'bench',
  meaning: "the shop's own conditions and instruments; one in a file and all it uses",
  example: 'bench {\n  mains 50 Hz\n  room 21 degC\n}',
  topLevel: true,
  facts: {
    mains: fact({
      shape: quantity('frequency', positive),
      assumed: '50 Hz',
      meaning: 'mains frequency; hum is judged at it',
      example: 'mains 50 Hz',
    }),
    room: fact({
      shape: quantity('temperature'),
      assumed: '20 degC',
      meaning: 'usual room temperature; resistances are stated at it',
      example: 'room 21 degC',
    }),
    meter: fact({
      shape: sequence({
        accuracy: keyword('accuracy'),
        ofReading: percent,
        digits: optional(sequence({ digits: keyword('digits'), count: count({ min: 0 }) })),
        resolution: optional(
          sequence({ resolution: keyword('resolution'), step: quantity('resistance', { ...positive, likely: 'ohm' }) }),
        ),
      }),
      assumed: '1 % of the reading and 3 digits of 10 ohm',
      meaning: "limits of the resistance range: percent of the reading, and so many digits of the range's resolution",
      example: 'meter accuracy 0.8 % digits 2 resolution 10 ohm',
    }),
    recorder: fact({
      shape: oneOf({
        input: sequence({
          input: keyword('input'),
          resistance: quantity('resistance', positive),
          capacitance: optional(sequence({ with: keyword('with'), value: quantity('capacitance', { min: 0 }) })),
        }),
        alone: sequence({
          alone: keyword('alone'),
          file: filePath,
          through: sequence({ through: keyword('through'), ohm: quantity('resistance', positive) }),
        }),
      }),
      repeats: true,
      assumed: '1 Mohm ± 5 % with 200 pF ± 80 pF',
      meaning:
        'what sweeps are recorded with: its input, the lead included; or its own sweep through a resistor with nothing connected, which tells it better',
      example: 'recorder input 1 Mohm with 150 pF ± 30 pF',
    }),
    severity: fact({
      shape: sequence({ code: findingCode, level: word(...LEVELS) }),
      repeats: true,
      meaning: 'how the findings of a code are told in every spec that uses this bench; off: not at all',
      example: 'severity potting/too-cold information',
    }),
    accept,
  },
});
