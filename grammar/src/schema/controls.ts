import { block, fact } from './block-schema.ts';
import { accept, forSlot, positive } from './common.ts';
import { count, declares, keyword, many, name, oneOf, optional, quantity, sequence, word } from './shape.ts';

const taper = optional(word('linear', 'audio', 'reverse-audio'));

/** By which a wiring names its lugs, and a switch the shaft that it sits on. */
const controlName = optional(declares('slot'));

/** Positions of the selector in which a control is connected. */
const inPositions = optional(sequence({ in: keyword('in'), keys: many(count({ min: 1, key: true })) }));

export const controls = block({
  keyword: 'controls',
  meaning:
    "the instrument's controls; 'for neck' serves that pickup only and sits before the selector, 'in 1 2' is connected in those positions only",
  example: 'controls {\n  volume 500 kohm audio\n  tone 500 kohm audio with 22 nF\n}',
  facts: {
    volume: fact({
      shape: oneOf(
        {
          volume: sequence({
            name: controlName,
            value: quantity('resistance', positive),
            taper,
            turnedRound: optional(keyword('wiper to pickup')),
            for: forSlot,
            in: inPositions,
          }),
          none: keyword('none'),
        },
        'none',
      ),
      repeats: true,
      assumed: 'no volume control; where only the taper is left out, audio',
      meaning:
        "a volume control by its track's resistance and taper; wiper to pickup: volumes that do not turn each other down; none takes those of the model away. " +
        'With x the travel from 0 to 1, the share of the track below the wiper is x for linear, (81^x - 1)/80 for audio (a tenth at half travel), and 1 - (81^(1-x) - 1)/80 for reverse-audio',
      example: 'volume 500 kohm audio',
    }),
    tone: fact({
      shape: oneOf(
        {
          tone: sequence({
            name: controlName,
            value: quantity('resistance', positive),
            taper,
            noLoad: optional(keyword('no-load')),
            with: keyword('with'),
            capacitor: quantity('capacitance', positive),
            atWiper: optional(keyword('at wiper')),
            for: forSlot,
            in: inPositions,
          }),
          none: keyword('none'),
        },
        'none',
      ),
      repeats: true,
      assumed: 'no tone control; where only the taper is left out, audio',
      meaning:
        "a tone control: its track's resistance and taper, and the capacitor; no-load: open at 10; at wiper: on the output side of the volume; none takes those of the model away",
      example: 'tone 500 kohm audio with 22 nF',
    }),
    blend: fact({
      shape: oneOf(
        {
          blend: sequence({
            first: name('slot'),
            second: name('slot'),
            value: quantity('resistance', positive),
            taper,
            twoGang: optional(keyword('two-gang')),
            in: inPositions,
          }),
          none: keyword('none'),
        },
        'none',
      ),
      repeats: true,
      assumed: 'no blend; where only the taper is left out, linear',
      meaning:
        'one control between two pickups, before the selector: at 0 the first alone, at 10 the second, at 5 both. One track has its ends on the pickups and the signal leaves at the wiper; ' +
        'where the position has the two in series, it is left out. two-gang: a track for each, wired wiper to pickup, dead (whole) over the half of the travel in which its pickup stays full; none takes those of the model away',
      example: 'blend neck bridge 500 kohm two-gang',
    }),
    bleed: fact({
      shape: oneOf(
        {
          bleed: sequence({
            capacitor: quantity('capacitance', positive),
            resistor: optional(
              sequence({ joined: word('parallel', 'series'), value: quantity('resistance', positive) }),
            ),
            for: forSlot,
          }),
          none: keyword('none'),
        },
        'none',
      ),
      repeats: true,
      meaning:
        'what lets treble pass the volume control: a capacitor, with a resistor in parallel or in series; none takes that of the model away',
      example: 'bleed 680 pF parallel 150 kohm',
    }),
    accept,
  },
});
