import type { Some } from '../../../grammar/values/present.ts';
import { sounds } from '../estimates/signs.ts';
import { jointOf, leadTexts } from '../model/pickup.ts';
import { leadWords } from '../words/parts.ts';
import { list } from '../words/text.ts';
import { insertFirstLine, insertLineAfter } from './edits.ts';
import type { Remedy } from './finding.ts';
import { floatingLeads, unreadWiring } from './lead-floating.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

export const circuitOpen = definePickupCheck({
  code: 'circuit/open',
  severity: 'error',
  yieldsTo: ['lead/undeclared', 'lead/reused', 'circuit/output-shorted'],
  run: (context) => {
    const { netlist, pickup, quick } = context;
    const { hookup } = pickup;
    if (!hookup || pickup.coils.length === 0 || unreadWiring(pickup)) return undefined;
    // Leads that nobody has traced leave the path unproven, not open.
    if (netlist.windings.some(({ ends }) => ends === 'unknown')) return undefined;
    const broken = quick.signs.length > 0 && quick.signs.every(({ transfer }) => transfer === undefined);
    if (!broken && quick.signs.some(sounds)) return undefined;
    if (!broken && netlist.hot !== undefined && netlist.ground !== undefined) return undefined;
    const floating = floatingLeads(netlist);
    const names = (kind: 'hot' | 'ground') =>
      list(hookup.joints.filter((joint) => joint.kind === kind).flatMap(leadTexts));
    const [hot, ground] = [names('hot'), names('ground')];
    const missing = !hot
      ? say`no lead is hot`
      : !ground
        ? say`no lead is ground`
        : say`no path leads from hot ${hot} to ground ${ground}`;
    const action = !hot
      ? say`Say which lead is hot.`
      : !ground
        ? say`Say which lead is ground.`
        : say`Follow the path from hot through the coils to ground, and join it where it ends.`;
    return {
      what: say`The pickup is silent: ${missing}${floating.length ? say`; ${leadWords(floating)} ${floating.length > 1 ? 'are' : 'is'} joined to nothing` : ''}.`,
      action,
      place: hookup.place,
      related: floating.map((lead) => ({
        message: say`${lead.name} leaves the pickup here and is joined to nothing`,
        place: lead.place,
      })),
      remedies: () => links(context),
      subject: { nodes: floating.map(({ node }) => node) },
    };
  },
});

/** Every link between two floating leads; the ones that leave a fault do not survive being solved again. */
function links({ netlist, pickup }: PickupContext): Some<Remedy> {
  const { hookup } = pickup;
  if (!hookup) return undefined;
  const floating = floatingLeads(netlist).slice(0, MOST_LEADS);
  const anchor = jointOf(pickup, 'hot') ?? hookup.joints[0];
  const insert = (line: string) => (anchor ? insertLineAfter(anchor.place, line) : insertFirstLine(hookup.place, line));
  return floating.flatMap((a, index) =>
    floating.slice(index + 1).map((b) => {
      const line = `link ${a.name} ${b.name}`;
      return remedy(say`Join them: \`${line}\``, insert(line), floating.length === 2);
    }),
  );
}

/** Pairs grow with the square; a pickup with more loose leads than this wants a person, not a guess. */
const MOST_LEADS = 8;
