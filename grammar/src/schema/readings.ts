import { block, fact } from './block-schema.ts';
import { accept, atTemperature, note, photo, positive, probes } from './common.ts';
import {
  count,
  date,
  filePath,
  keyword,
  name,
  oneOf,
  optional,
  path,
  percent,
  quantity,
  sequence,
  text,
  word,
} from './shape.ts';

const resistanceOrOpen = oneOf({ open: keyword('open'), value: quantity('resistance', { min: 0 }) });

export const readings = block({
  keyword: 'readings',
  head: sequence({
    found: optional(keyword('found')),
    apart: optional(keyword('apart')),
    title: optional(text),
    date: optional(date),
  }),
  history: 'of the state',
  meaning:
    'what was measured at one time; found: before the work, as the pickup came in; apart: before any joint of the hookup was made',
  example: 'readings "after potting" 2026-10-04 {\n  room 21 degC\n  hot to ground 7.31 kohm\n}',
  facts: {
    room: fact({
      shape: quantity('temperature'),
      assumed: "the bench's room temperature",
      meaning: 'temperature of these readings',
      example: 'room 23 degC',
    }),
    resistance: fact({
      wordless: true,
      shape: sequence({
        from: path('lead'),
        to: optional(sequence({ to: keyword('to'), lead: path('lead') })),
        value: resistanceOrOpen,
        at: atTemperature,
      }),
      repeats: true,
      meaning:
        'resistance of a coil alone, or between any two leads, ends or metal parts; open where the meter shows none',
      example: 'hot to ground 7.31 kohm at 21 degC',
    }),
    kick: fact({
      shape: sequence({
        between: probes,
        at: optional(sequence({ at: keyword('at'), coil: name('coil') })),
        motion: word('approach', 'pull-off'),
        reads: word('positive', 'negative'),
      }),
      repeats: true,
      meaning: 'steel brought near the poles or pulled off them, red probe on the lead named first; at: whose poles',
      example: 'kick turquoise to pink approach positive',
    }),
    compass: fact({
      shape: sequence({ coil: name('coil'), pole: word('north-up', 'south-up') }),
      repeats: true,
      meaning: "the pole at the top of a coil's poles, by a compass",
      example: 'compass slug south-up',
    }),
    inductance: fact({
      shape: sequence({
        between: probes,
        value: quantity('inductance', positive),
        at: optional(sequence({ at: keyword('at'), frequency: quantity('frequency', positive) })),
      }),
      repeats: true,
      meaning: 'inductance between two leads, at the frequency of the meter',
      example: 'inductance hot to ground 4.1 H at 1 kHz',
    }),
    capacitance: fact({
      shape: oneOf({
        between: sequence({ between: probes, value: quantity('capacitance', positive) }),
        whole: sequence({ value: quantity('capacitance', positive), between: optional(probes) }),
      }),
      repeats: true,
      meaning: 'capacitance between hot and ground, or between the two leads that it names',
      example: 'capacitance 110 pF',
    }),
    position: fact({
      shape: sequence({ key: count({ min: 1, key: true }), value: resistanceOrOpen, at: atTemperature }),
      repeats: true,
      meaning: "resistance at the instrument's jack in a position of the selector, controls full up",
      example: 'position 1 7.20 kohm',
    }),
    sweep: fact({
      shape: sequence({
        between: probes,
        file: filePath,
        measured: oneOf({
          meter: sequence({
            by: word('impedance'),
            accuracy: optional(sequence({ accuracy: keyword('accuracy'), share: percent })),
          }),
          circuit: sequence({ by: word('through', 'over'), ohm: quantity('resistance', positive) }),
          exciter: sequence({ by: word('excited'), over: keyword('over'), ohm: quantity('resistance', positive) }),
        }),
        added: optional(sequence({ with: keyword('with'), value: quantity('capacitance', positive) })),
        at: atTemperature,
      }),
      repeats: true,
      meaning:
        'a curve over frequency by the path of its file, and what it was measured through: impedance by a meter; through: a resistor in the way, the pickup to ground; over: the pickup in the way, a resistor to ground; excited: by a coil above it whose current goes over that resistor; with: a capacitor put across. The lead named first lies toward the signal',
      example: 'sweep hot to ground "sweeps/heron.csv" over 10 kohm',
    }),
    notes: note,
    photos: photo,
    accept,
  },
});
