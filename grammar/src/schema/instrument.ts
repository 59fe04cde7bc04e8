import { block, fact } from './block-schema.ts';
import { accept, customer, note, photo, positive, serial } from './common.ts';
import { count, declares, keyword, many, name, optional, quantity, sequence, text, word } from './shape.ts';

export const instrument = block({
  keyword: 'instrument',
  head: sequence({ name: declares('instrument'), title: optional(text) }),
  names: 'instrument',
  like: true,
  meaning: 'an instrument: which pickups it holds, where, and what they are joined to',
  example:
    'instrument juniper "Juniper" {\n  scale 648 mm\n  pickup bridge heron-bridge at 42 mm\n  selector {\n  }\n}',
  blocks: ['controls', 'wiring', 'selector', 'readings'],
  topLevel: true,
  facts: {
    serial,
    customer,
    scale: fact({
      shape: quantity('length', positive),
      meaning: 'length of the open string from nut to saddle',
      example: 'scale 648 mm',
    }),
    strings: fact({
      shape: sequence({
        count: count({ min: 1 }),
        spread: optional(
          sequence({
            spread: keyword('spread'),
            places: many(
              sequence({ distance: quantity('length', positive), at: keyword('at'), place: word('bridge', 'nut') }),
            ),
          }),
        ),
      }),
      meaning: 'how many strings, and the distance from the first to the last at the bridge and at the nut',
      example: 'strings 6 spread 52.0 mm at bridge, 35.0 mm at nut',
    }),
    pickup: fact({
      shape: sequence({
        slot: declares('slot'),
        pickup: name('pickup'),
        at: optional(sequence({ at: keyword('at'), distance: quantity('length', positive) })),
      }),
      repeats: true,
      meaning: 'a place in the instrument, the pickup in it, and the distance of its pole centre line from the saddle',
      example: 'pickup bridge heron-bridge at 42 mm',
    }),
    switches: fact({
      word: 'switch',
      shape: sequence({
        slot: declares('slot'),
        part: name('switch'),
        on: optional(sequence({ on: keyword('on'), control: name('slot') })),
      }),
      repeats: true,
      meaning: 'a switch of the instrument, the part in it, and the control on whose shaft it sits',
      example: 'switch lever lever-two-five',
    }),
    cable: fact({
      shape: sequence({
        length: quantity('length', { ...positive, likely: 'm' }),
        of: keyword('of'),
        capacitancePerLength: quantity('capacitance per length', positive),
      }),
      assumed: '450 pF of cable',
      meaning: 'the cable to the amplifier, its length and capacitance',
      example: 'cable 4.5 m of 100 pF/m',
    }),
    input: fact({
      shape: quantity('resistance', positive),
      assumed: '1 Mohm',
      meaning: "the amplifier's input resistance",
      example: 'input 1 Mohm',
    }),
    notes: note,
    photos: photo,
    accept,
  },
});
