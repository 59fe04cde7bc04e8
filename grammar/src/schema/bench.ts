import { block, fact } from './block-schema.ts';
import { accept, positive } from './common.ts';
import { count, findingCode, keyword, optional, percent, quantity, sequence, word } from './shape.ts';

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
    severity: fact({
      shape: sequence({ code: findingCode, level: word(...LEVELS) }),
      repeats: true,
      meaning: 'how the findings of a code are told in every spec that uses this bench; off: not at all',
      example: 'severity potting/too-cold information',
    }),
    accept,
  },
});
