import { block, fact } from './block-schema.ts';
import { accept, positive } from './common.ts';
import { keyword, many, name, optional, percent, quantity, sequence, word } from './shape.ts';

/** Words of the targets, as `first` names them; `mismatch` stands for those that name two coils. */
const TARGET_WORDS = ['resistance', 'inductance', 'resonance', 'peak', 'output', 'hum', 'mismatch'] as const;

export const target = block({
  keyword: 'target',
  meaning:
    'what the build should reach; what is left out of the pickup (turns, wire, bobbin, magnet) is proposed for it. A ± is the tolerance: how far from the number the build may come out',
  example: 'target {\n  resistance 7.3 kohm ± 0.2 kohm\n  resonance 2.9 kHz loaded\n}',
  facts: {
    resistance: fact({
      shape: quantity('resistance', positive),
      assumed: 'nothing is aimed at; where only the tolerance is left out, ± 5 %',
      meaning: "resistance from hot to ground at the bench's room temperature",
      example: 'resistance 7.3 kohm ± 0.2 kohm',
    }),
    inductance: fact({
      shape: quantity('inductance', positive),
      assumed: 'nothing is aimed at; where only the tolerance is left out, ± 5 %',
      meaning: 'inductance from hot to ground',
      example: 'inductance 4.2 H',
    }),
    resonance: fact({
      shape: sequence({ frequency: quantity('frequency', positive), load: optional(word('loaded', 'unloaded')) }),
      assumed: 'nothing is aimed at; where only the last word is left out, loaded; the tolerance, ± 5 %',
      meaning: 'resonant frequency: loaded by controls, cable and input, or of the pickup alone',
      example: 'resonance 2.9 kHz ± 0.1 kHz loaded',
    }),
    peak: fact({
      shape: quantity('level'),
      assumed: 'nothing is aimed at; where only the tolerance is left out, ± 1 dB',
      meaning: 'how high the resonance stands over the lows, under the load that `resonance` names, else loaded',
      example: 'peak 4 dB ± 1 dB',
    }),
    output: fact({
      shape: sequence({ level: quantity('level'), against: keyword('against'), pickup: name('pickup') }),
      assumed: 'nothing is aimed at; where only the tolerance is left out, ± 1 dB',
      meaning: 'how much louder than another pickup at 100 Hz, by coils and magnets; below zero for softer',
      example: 'output +2 dB against heron-found',
    }),
    hum: fact({
      shape: quantity('level', { max: 0 }),
      meaning: "hum that is left at most, against the stronger coil's; a ± is added to it",
      example: 'hum -20 dB',
    }),
    mismatch: fact({
      wordless: true,
      shape: sequence({
        coil: name('coil'),
        percent,
        order: word('heavier', 'lighter'),
        than: keyword('than'),
        other: name('coil'),
      }),
      repeats: true,
      assumed: 'coils that should be alike; where only the tolerance is left out, ± 3 %',
      meaning: 'two coils that are unlike on purpose: how many turns the one has more or fewer than the other',
      example: 'slug 20 % heavier than screw',
    }),
    first: fact({
      shape: many(word(...TARGET_WORDS)),
      assumed: 'all are alike',
      meaning:
        'which targets go before the others where they conflict, the most important first: each counts ten times as much as the next',
      example: 'first resonance resistance',
    }),
    accept,
  },
});
