import type { Some } from '../../../grammar/values/present.ts';
import { foilNode, foilsOf, isGrounded, isWired } from '../model/netlist.ts';
import { jointOf, leadTexts } from '../model/pickup.ts';
import type { Language } from '../words/languages/language.ts';
import { coilWords } from '../words/parts.ts';
import { polesTurned } from '../words/pole-turning.ts';
import { capital, listIn } from '../words/text.ts';
import { flipBar, flipPolarity, rewriteJoint } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

export const groundMetalHot = definePickupCheck({
  code: 'ground/metal-hot',
  severity: 'error',
  yieldsTo: ['lead/undeclared', 'lead/reused', 'circuit/output-shorted'],
  run: (context) => {
    const { netlist } = context;
    const isLive = ({ net }: { readonly net: number }) => isWired(netlist, net) && !isGrounded(netlist, net);
    const parts = netlist.metal.filter(isLive).map(({ name, fitting, net, place }) => ({
      words: (t: Language) => (fitting === 'shield' ? t('the shield {0}', t.word(name)) : t('the {0}', t.word(name))),
      node: `part:${fitting === 'shield' ? 'shield' : name}`,
      net,
      place,
    }));
    // Beneath a cover nobody touches it: it matters where there is no other metal that is told already.
    const foils = foilsOf(netlist)
      .filter(isLive)
      .filter(({ net }) => !parts.some((each) => each.net === net))
      .map(({ coil, net, place }) => ({
        words: (t: Language) => t('the foil of {0}', coilWords(coil, t)),
        node: foilNode(coil.name),
        net,
        place,
      }));
    const live = [...parts, ...foils];
    const first = live[0];
    if (!first) return undefined;
    const onHot = live.some(({ net }) => net === netlist.hot);
    const joint = netlist.nets[first.net]?.joints[0];
    return {
      what: (t) =>
        t(
          LIES[live.length > 1 ? 'several' : 'one'],
          capital(
            listIn(
              t,
              live.map(({ words }) => words(t)),
            ),
          ),
          t(onHot ? 'hot' : 'the middle of the circuit'),
          t((parts.length > 0 ? TOUCHED : BENEATH)[live.length > 1 ? 'several' : 'one']),
        ),
      action: (t) => t(live.length > 1 ? 'Take them to ground.' : 'Take it to ground.'),
      place: joint?.place ?? first.place,
      related: live.map(({ place, words }) => ({
        message: (t: Language) => t('{0} is on that net', capital(words(t))),
        place,
      })),
      remedies: () => (onHot ? reversals(context) : undefined),
      subject: { nodes: live.map(({ node }) => node) },
    };
  },
});

const LIES = { one: '{0} lies on {1}: {2}.', several: '{0} lie on {1}: {2}.' } as const;
const TOUCHED = {
  one: 'touching it hums, and metal against grounded foil silences the pickup',
  several: 'touching them hums, and metal against grounded foil silences the pickup',
} as const;
const BENEATH = {
  one: 'it carries hum in instead of keeping it off, and grounded metal against it silences the pickup',
  several: 'they carry hum in instead of keeping it off, and grounded metal against them silences the pickup',
} as const;

/** Hot and ground change places; turning the magnet over as well keeps the phase that the swap was made for. */
function reversals({ pickup }: PickupContext): Some<Remedy> {
  const [hot, ground] = [jointOf(pickup, 'hot'), jointOf(pickup, 'ground')];
  if (!hot || !ground) return undefined;
  const swap = [rewriteJoint(hot, leadTexts(ground)), rewriteJoint(ground, leadTexts(hot))];
  const bar = flipBar(pickup);
  const turned = bar ? [bar] : (flipPolarity(pickup.coils, pickup) ?? []);
  const words = say`\`hot ${leadTexts(ground).join(' ')}\`, \`ground ${leadTexts(hot).join(' ')}\``;
  const keepingPhase = (t: Language) => t('{0}, and {1} to keep the phase', words, polesTurned(pickup, pickup.name, t));
  return [turned.length > 0 ? remedy(keepingPhase, [...swap, ...turned], true) : undefined, remedy(() => words, swap)];
}
