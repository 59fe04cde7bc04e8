import { block, fact } from './block-schema.ts';
import { accept, became, customer, note, photo, positive, serial } from './common.ts';
import {
  comma,
  count,
  date,
  declares,
  keyword,
  label,
  name,
  oneOf,
  optional,
  path,
  quantity,
  sequence,
  text,
  unordered,
  word,
} from './shape.ts';

/** A metal part, how thick its sheet is, and what it is tied to, or none. */
const metalPart = oneOf({
  none: keyword('none'),
  metal: sequence({
    material: word('nickel-silver', 'brass', 'steel', 'copper', 'stainless-steel', 'aluminium'),
    thickness: optional(quantity('length', positive)),
    tied: optional(sequence({ tied: keyword('tied to'), to: path('lead') })),
  }),
});

export const pickup = block({
  keyword: 'pickup',
  head: sequence({ name: declares('pickup'), title: optional(text) }),
  names: 'pickup',
  like: true,
  reworks: true,
  meaning: 'a pickup as built: its coils, magnet, metal parts and leads',
  example: 'pickup heron-bridge "Heron, bridge" {\n  strings 6\n  coil screw {\n  }\n  hookup {\n  }\n}',
  blocks: ['coil', 'hookup', 'readings', 'potting', 'target'],
  topLevel: true,
  facts: {
    serial,
    customer,
    position: fact({
      shape: label('neck', 'middle', 'bridge'),
      meaning: 'where in the instrument it is meant to sit',
      example: 'position bridge',
    }),
    strings: fact({
      shape: count({ min: 1 }),
      meaning: 'how many strings it is made for',
      example: 'strings 6',
    }),
    coilsApart: fact({
      word: 'coils',
      shape: sequence({
        distance: quantity('length', positive),
        apart: keyword('apart'),
        order: optional(
          sequence({
            comma: optional(comma),
            coil: name('coil'),
            toward: keyword('toward'),
            end: word('bridge', 'neck'),
          }),
        ),
      }),
      assumed: '18 mm apart, where two coils lie side by side',
      meaning: 'distance of the centre lines of two coils, and which of them lies toward the bridge or the neck',
      example: 'coils 18.5 mm apart, screw toward bridge',
    }),
    made: fact({
      shape: date,
      history: 'of the state',
      meaning: 'the day it was finished',
      example: 'made 2026-10-02',
    }),
    takenAway: fact({
      word: 'without',
      shape: unordered(name('coil')),
      history: 'of the state',
      meaning: 'coils that the pickup which this one reworks had, and this one has no more',
      example: 'without slug',
    }),
    notes: note,
    photos: photo,
    conductors: fact({
      shape: unordered(declares('lead')),
      assumed: "none: the coils' own leads leave the pickup",
      meaning: 'conductors of the cable that leaves the pickup',
      example: 'conductors violet grey pink turquoise',
    }),
    shield: fact({
      shape: declares('lead'),
      meaning: "the drain wire or braid: one more lead; may carry a coil's end",
      example: 'shield bare',
    }),
    magnet: fact({
      shape: sequence({
        magnet: name('magnet'),
        pole: word('north', 'south'),
        toward: keyword('toward'),
        coil: name('coil'),
        became,
      }),
      meaning:
        'a bar under the coils, and which of its poles lies toward which coil: that coil has this pole up; kept, turned (over) or new: what the work did to it, unknown where left out',
      example: 'magnet short-bar north toward screw, kept',
    }),
    baseplate: fact({
      shape: metalPart,
      meaning:
        'the plate under the coils: its metal, how thick it is (else 0.5 mm are assumed), and what it is soldered to',
      example: 'baseplate nickel-silver 0.8 mm tied to bare',
    }),
    cover: fact({
      shape: metalPart,
      meaning: 'the metal cover, how thick its sheet is (else 0.5 mm are assumed), and what it is soldered to',
      example: 'cover nickel-silver 0.4 mm tied to baseplate',
    }),
    cable: fact({
      shape: sequence({
        length: quantity('length', { ...positive, likely: 'm' }),
        kind: optional(word('braid', 'four-conductor', 'pair')),
        capacitancePerLength: optional(
          sequence({ of: keyword('of'), perLength: quantity('capacitance per length', positive) }),
        ),
      }),
      assumed:
        '0.33 m; braid with a shield and up to two conductors, four-conductor with more, pair without a shield: 90 to 127 pF/m, 69 to 81 pF/m, 30 to 50 pF/m',
      meaning:
        "the pickup's own cable: its length, and its capacitance or its kind (one conductor in a braid, four in a shield, a pair of wires)",
      example: 'cable 0.3 m of 90 pF/m',
    }),
    accept,
  },
});
