import type { Some } from '../../../grammar/values/present.ts';
import { foilNode, foilsOf, isGrounded, isWired } from '../model/netlist.ts';
import { jointOf, leadTexts } from '../model/pickup.ts';
import { coilWords } from '../words/parts.ts';
import { polesTurned } from '../words/pole-turning.ts';
import { capital, list } from '../words/text.ts';
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
      words: fitting === 'shield' ? say`the shield ${name}` : say`the ${name}`,
      node: `part:${fitting === 'shield' ? 'shield' : name}`,
      net,
      place,
    }));
    // Beneath a cover nobody touches it: it matters where there is no other metal that is told already.
    const foils = foilsOf(netlist)
      .filter(isLive)
      .filter(({ net }) => !parts.some((each) => each.net === net))
      .map(({ coil, net, place }) => ({
        words: say`the foil of ${coilWords(coil)}`,
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
      what: say`${capital(list(live.map(({ words }) => words)))} ${live.length > 1 ? 'lie' : 'lies'} on ${onHot ? 'hot' : 'the middle of the circuit'}: ${parts.length > 0 ? say`touching ${live.length > 1 ? 'them' : 'it'} hums, and metal against grounded foil silences the pickup` : say`${live.length > 1 ? 'they carry' : 'it carries'} hum in instead of keeping it off, and grounded metal against ${live.length > 1 ? 'them' : 'it'} silences the pickup`}.`,
      action: say`Take ${live.length > 1 ? 'them' : 'it'} to ground.`,
      place: joint?.place ?? first.place,
      related: live.map(({ place, words }) => ({ message: say`${capital(words)} is on that net`, place })),
      remedies: () => (onHot ? reversals(context) : undefined),
      subject: { nodes: live.map(({ node }) => node) },
    };
  },
});

/** Hot and ground change places; turning the magnet over as well keeps the phase that the swap was made for. */
function reversals({ pickup }: PickupContext): Some<Remedy> {
  const [hot, ground] = [jointOf(pickup, 'hot'), jointOf(pickup, 'ground')];
  if (!hot || !ground) return undefined;
  const swap = [rewriteJoint(hot, leadTexts(ground)), rewriteJoint(ground, leadTexts(hot))];
  const bar = flipBar(pickup);
  const turned = bar ? [bar] : (flipPolarity(pickup.coils, pickup) ?? []);
  const words = say`\`hot ${leadTexts(ground).join(' ')}\`, \`ground ${leadTexts(hot).join(' ')}\``;
  const keepingPhase = say`${words}, and ${polesTurned(pickup, pickup.name)} to keep the phase`;
  return [turned.length > 0 ? remedy(keepingPhase, [...swap, ...turned], true) : undefined, remedy(words, swap)];
}
