import { block, fact } from './block-schema.ts';
import { accept, became, note, photo, positive } from './common.ts';
import {
  comma,
  count,
  declares,
  keyword,
  name,
  number,
  oneOf,
  optional,
  ownLead,
  path,
  quantity,
  sequence,
  word,
} from './shape.ts';

/** A lead of a coil's end: its own colour, what it is soldered to, or both. */
const endLead = oneOf({
  soldered: sequence({ lead: optional(ownLead('inside')), to: keyword('to'), onto: path('lead') }),
  own: sequence({ lead: ownLead('brought out') }),
});

export const coil = block({
  keyword: 'coil',
  head: sequence({ name: declares('coil') }),
  names: 'coil',
  like: true,
  meaning: 'one coil of a pickup: what it is wound on, with what, how often, which way, and where its ends go',
  example:
    'coil slug {\n  bobbin tall-six\n  spool RYD-W7\n  turns 4_900\n  wound clockwise\n  start blue to violet\n  finish gold to grey\n}',
  facts: {
    kept: fact({
      shape: sequence({}),
      insteadOf: ['new'],
      history: 'of the state',
      meaning: 'the work left this coil as it was found: what was measured of it as found still holds',
      example: 'kept',
    }),
    isNew: fact({
      word: 'new',
      shape: sequence({}),
      insteadOf: ['kept'],
      history: 'of the state',
      meaning:
        'wound anew in the work: what was measured as found is of the coil that came out; of the pickup that is reworked it takes over nothing but the name',
      example: 'new',
    }),
    bobbin: fact({
      shape: name('bobbin'),
      meaning: 'the bobbin that it is wound on',
      example: 'bobbin tall-six',
    }),
    wire: fact({
      shape: name('wire'),
      insteadOf: ['spool'],
      meaning: 'the kind of wire, where no spool is known',
      example: 'wire heavy-plain',
    }),
    spool: fact({
      shape: name('spool'),
      insteadOf: ['wire'],
      meaning: 'the spool that it is wound from; brings its wire along',
      example: 'spool RYD-W7',
    }),
    turns: fact({
      shape: count({ min: 1, unit: 'turns' }),
      assumed: "inferred from the coil's resistance reading, where one is stated",
      meaning: 'planned turns',
      example: 'turns 4_900',
    }),
    counted: fact({
      shape: count({ min: 1, unit: 'turns' }),
      history: 'of the piece',
      meaning: 'what the counter showed; goes before the planned turns',
      example: 'counted 4_896 turns',
    }),
    wound: fact({
      shape: word('clockwise', 'counterclockwise'),
      meaning: 'seen from the strings, from start (inner end) to finish (outer end)',
      example: 'wound clockwise',
    }),
    packing: fact({
      shape: number({ min: 0, exclusiveMin: true, max: 0.907, exclusiveMax: true }),
      assumed: '0.64 ± 0.04, as a scatter winding has it',
      meaning: 'area of copper and enamel over the area of the window that is really filled',
      example: 'packing 0.66',
    }),
    polarity: fact({
      shape: sequence({ pole: word('north-up', 'south-up'), became }),
      meaning:
        'pole toward the strings, for rod magnets or more than two coils; a bar magnet is stated in the pickup; kept, turned or new: what the work did to the rods, unknown where left out',
      example: 'polarity north-up',
    }),
    start: fact({
      shape: endLead,
      meaning: "inner end: the coil's own lead, what it is soldered to, or both",
      example: 'start gold to pink',
    }),
    finish: fact({
      shape: endLead,
      meaning: "outer end: the coil's own lead, what it is soldered to, or both",
      example: 'finish brown to turquoise',
    }),
    tap: fact({
      shape: oneOf(
        {
          none: keyword('none'),
          tap: sequence({ turns: count({ min: 1, unit: 'turns' }), lead: ownLead('brought out') }),
        },
        'none',
      ),
      repeats: true,
      meaning: 'a lead brought out so many turns from the start; none takes the taps of the model away',
      example: 'tap 4_000 turns orange',
    }),
    spindle: fact({
      shape: sequence({
        rotation: word('clockwise', 'counterclockwise'),
        comma: optional(comma),
        towardIt: word('top', 'bottom'),
        toward: keyword('toward it'),
      }),
      meaning:
        'how the machine turned, seen facing the spindle, and which face of the bobbin was toward it; checked against wound',
      example: 'spindle clockwise, top toward it',
    }),
    serves: fact({
      shape: oneOf({
        none: keyword('none'),
        strings: sequence({
          strings: keyword('strings'),
          first: count({ min: 1 }),
          last: optional(sequence({ to: keyword('to'), string: count({ min: 1 }) })),
        }),
      }),
      assumed: 'all strings; where the poles of all coils together are as many as the strings, each coil its own',
      meaning: 'strings that it senses; none for a dummy coil; coils that sense different strings never sound together',
      example: 'serves strings 1 to 3',
    }),
    below: fact({
      shape: name('coil'),
      meaning: 'stacked under that coil on its poles, to cancel hum; meant to oppose it',
      example: 'below screw',
    }),
    gap: fact({
      shape: quantity('length', { min: 0 }),
      assumed: 'two flanges of 1.5 mm',
      meaning: 'between the winding spaces of this bobbin and of the one that it is stacked below',
      example: 'gap 2.4 mm',
    }),
    tension: fact({
      shape: quantity('mass', positive),
      meaning: 'pull on the wire while winding, as the gauge shows it in grams',
      example: 'tension 25 g',
    }),
    foil: fact({
      shape: oneOf({
        none: keyword('none'),
        lead: sequence({ tied: keyword('tied to'), lead: path('lead') }),
      }),
      meaning:
        'foil laid round the winding, and what it is soldered to; with the outer end hot it costs hundreds of picofarads',
      example: 'foil tied to black',
    }),
    traverse: fact({
      shape: quantity('length', positive),
      meaning: 'how far the guide moves along the bobbin in one turn',
      example: 'traverse 0.1 mm',
    }),
    speed: fact({
      shape: quantity('rotation speed', positive),
      meaning: 'speed of the spindle',
      example: 'speed 800 rpm',
    }),
    notes: note,
    photos: photo,
    accept,
  },
});
