import { block, fact } from './block-schema.ts';
import { accept, forSlot, positive } from './common.ts';
import { keyword, optional, quantity, sequence, word } from './shape.ts';

const taper = optional(word('linear', 'audio', 'reverse-audio'));

export const controls = block({
  keyword: 'controls',
  meaning: "the instrument's controls; 'for neck' serves that pickup only and sits before the selector",
  example: 'controls {\n  volume 500 kohm audio\n  tone 500 kohm audio with 22 nF\n}',
  facts: {
    volume: fact({
      shape: sequence({ value: quantity('resistance', positive), taper, for: forSlot }),
      repeats: true,
      assumed: 'no volume control; where only the taper is left out, audio',
      meaning: "a volume control by its track's resistance and taper",
      example: 'volume 500 kohm audio',
    }),
    tone: fact({
      shape: sequence({
        value: quantity('resistance', positive),
        taper,
        with: keyword('with'),
        capacitor: quantity('capacitance', positive),
        for: forSlot,
      }),
      repeats: true,
      assumed: 'no tone control; where only the taper is left out, audio',
      meaning: "a tone control: its track's resistance and taper, and the capacitor",
      example: 'tone 500 kohm audio with 22 nF',
    }),
    bleed: fact({
      shape: sequence({
        capacitor: quantity('capacitance', positive),
        resistor: optional(sequence({ joined: word('parallel', 'series'), value: quantity('resistance', positive) })),
        for: forSlot,
      }),
      repeats: true,
      meaning: 'what lets treble pass the volume control: a capacitor, with a resistor in parallel or in series',
      example: 'bleed 680 pF parallel 150 kohm',
    }),
    accept,
  },
});
