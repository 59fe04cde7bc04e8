import type { PositionNetwork } from '../estimates/position-network.ts';
import type { WiredStates } from '../estimates/switch-states.ts';
import type { Position, Slot } from '../model/instrument.ts';
import { isGrounded } from '../model/netlist.ts';
import { jointOf, leadTexts, type Pickup } from '../model/pickup.ts';
import { GROUND, HOT } from '../physics/switching/rig.ts';
import { positionWords } from '../words/parts.ts';
import { list } from '../words/text.ts';
import { insertLineAfter, rewriteJoint } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePositionCheck, type FoundAtPosition } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';
import { wiredMetalOf } from './wired-metal.ts';

export const groundMetalHotPosition = definePositionCheck({
  code: 'ground/metal-hot',
  severity: 'error',
  yieldsTo: ['circuit/output-shorted'],
  at: ({ position, network }, { switching }) => {
    // As it is wired, metal may have a joint of its own.
    if (switching) return wiredMetal(position, switching);
    const slots = [...new Set(network.metal.map(({ slot }) => slot))];
    return slots.map((slot) => {
      const { pickup } = slot;
      if (!pickup || hotByItself(network, slot)) return undefined;
      const live = network.metal.filter((each) => each.slot === slot && (network.netOf(each.node) ?? 0) !== 0);
      if (live.length === 0) return undefined;
      const onHot = live.some(
        ({ node }) =>
          network.netOf(node) === network.netOf('selected') || network.netOf(node) === network.netOf(network.output),
      );
      const ground = jointOf(pickup, 'ground');
      const names = list([...new Set(live.map(({ name }) => name))]);
      return {
        what: say`In ${positionWords(position)} the metal of ${slot.name} (${names}) comes to ${onHot ? 'hot' : 'the middle of the circuit'}, because it lies on the ground lead of that pickup: it hums when touched, and against grounded foil it silences the pickup.`,
        action: say`Take the metal off that lead and give it one of its own to ground.`,
        related: ground && { message: say`the ground line of ${pickup.name}`, place: ground.place },
        remedies: () => separateShield(pickup),
        subject: { nodes: live.map(({ node }) => node) },
      };
    });
  },
});

function wiredMetal(position: Position, switching: WiredStates): readonly FoundAtPosition[] {
  const state = switching.states.find(({ positions }) => positions.some(({ key }) => key.value === position.key.value));
  if (!state) return [];
  const { meaning } = state;
  const { elements } = switching.numbered.rig;
  const live = new Set(
    elements.filter(({ name }) => meaning.sounding.includes(name)).flatMap(({ ends }) => ends.map(meaning.netOf)),
  );
  const metal = wiredMetalOf(switching).filter(({ terminal }) => {
    const net = meaning.netOf(terminal);
    return net !== meaning.netOf(GROUND) && live.has(net);
  });
  return [...new Set(metal.map(({ slot }) => slot))].map((slot) => {
    const own = metal.filter((each) => each.slot === slot);
    const onHot = own.some(({ terminal }) => meaning.netOf(terminal) === meaning.netOf(HOT));
    return {
      what: say`In ${positionWords(position)} the metal of ${slot} (${list(own.map(({ name }) => name))}) comes to ${onHot ? 'hot' : 'the middle of the circuit'}: it hums when touched, and against grounded foil it silences the pickup.`,
      action: say`Take the metal off that lead and give it one of its own to ground.`,
      related: own.map(({ place }) => ({ message: say`the metal`, place })),
      subject: { nodes: own.map(({ terminal }) => terminal) },
    };
  });
}

/** Metal that is on hot in the pickup's own hookup is told there. */
function hotByItself({ segments }: PositionNetwork, slot: Slot): boolean {
  const netlist = segments.find((each) => each.slot === slot)?.quick.netlist;
  return netlist?.metal.some(({ net }) => net >= 0 && !isGrounded(netlist, net)) ?? false;
}

/** Takes the shield off the ground lead and gives it a line of its own. */
function separateShield(pickup: Pickup): Remedy | undefined {
  const ground = jointOf(pickup, 'ground');
  const shield = pickup.shield?.value;
  if (!ground || shield === undefined) return undefined;
  const rest = leadTexts(ground).filter((text) => text !== shield);
  if (rest.length === 0 || rest.length === ground.leads.length) return undefined;
  return remedy(
    say`Separate the shield of ${pickup.name}: \`ground ${rest.join(' ')}\` and \`shield ${shield}\``,
    [rewriteJoint(ground, rest), insertLineAfter(ground.place, `shield ${shield}`)],
    true,
  );
}
