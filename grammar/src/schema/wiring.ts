import { block, fact } from './block-schema.ts';
import { accept, positive } from './common.ts';
import { keyword, path, quantity, sequence, unordered } from './shape.ts';

const between = { from: path('terminal'), to: keyword('to'), onto: path('terminal') } as const;

export const wiring = block({
  keyword: 'wiring',
  meaning:
    "what is soldered to the lugs: leads (bridge.violet), lugs (lever.a1), a named control's input, wiper or low, jack; where it stands, a pickup's hookup joins nothing to hot or ground, and its link is soldered unless two leads of it are in different lines here; a control whose lugs are named stands there and nowhere else: a volume's track from input to low, a tone's from input to wiper and its capacitor from there to low",
  example: 'wiring {\n  hot lever.a0\n  link bridge.violet lever.a1\n  ground bridge.pink\n}',
  facts: {
    hot: fact({
      shape: unordered(path('terminal')),
      repeats: true,
      meaning: 'what goes on to the controls and the jack',
      example: 'hot lever.a0 lever.b0',
    }),
    link: fact({
      shape: unordered(path('terminal'), 2),
      repeats: true,
      meaning: 'terminals soldered together: a lead on its lug, a jumper from lug to lug',
      example: 'link bridge.violet lever.a1 lever.a2',
    }),
    ground: fact({
      shape: unordered(path('terminal')),
      repeats: true,
      meaning: "what lies on the instrument's ground",
      example: 'ground lever.c0 bridge.pink bridge.bare',
    }),
    free: fact({
      shape: unordered(path('terminal')),
      repeats: true,
      meaning: 'joined to nothing: taped off, or a lug left empty',
      example: 'free lever.d0',
    }),
    resistor: fact({
      shape: sequence({ value: quantity('resistance', positive), ...between }),
      repeats: true,
      meaning: 'a resistor between two terminals',
      example: 'resistor 4.7 kohm pull.a2 to ground',
    }),
    capacitor: fact({
      shape: sequence({ value: quantity('capacitance', positive), ...between }),
      repeats: true,
      meaning: 'a capacitor between two terminals',
      example: 'capacitor 4.7 nF lever.a1 to lever.a2',
    }),
    accept,
  },
});
