import { block, fact } from './block-schema.ts';
import { accept, positive } from './common.ts';
import { optional, quantity, sequence, word } from './shape.ts';

export const target = block({
  keyword: 'target',
  meaning: 'what the build should reach; turns and wire are checked or proposed against it',
  example: 'target {\n  resistance 7.3 kohm\n  resonance 2.9 kHz loaded\n}',
  facts: {
    resistance: fact({
      shape: quantity('resistance', positive),
      meaning: "resistance from hot to ground at the bench's room temperature",
      example: 'resistance 7.3 kohm',
    }),
    inductance: fact({
      shape: quantity('inductance', positive),
      meaning: 'inductance from hot to ground',
      example: 'inductance 4.2 H',
    }),
    resonance: fact({
      shape: sequence({ frequency: quantity('frequency', positive), load: optional(word('loaded', 'unloaded')) }),
      assumed: 'nothing is aimed at; where only the last word is left out, loaded',
      meaning: 'resonant frequency: loaded by controls, cable and input, or of the pickup alone',
      example: 'resonance 2.9 kHz loaded',
    }),
    accept,
  },
});
