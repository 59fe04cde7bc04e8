import type { Some } from '../../../grammar/values/present.ts';
import { sounds } from '../estimates/signs.ts';
import { jointOf, leadTexts } from '../model/pickup.ts';
import type { Language } from '../words/languages/language.ts';
import { listIn } from '../words/text.ts';
import { insertFirstLine, insertLineAfter } from './edits.ts';
import type { Remedy } from './finding.ts';
import { floatingLeads, unreadWiring } from './lead-floating.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy } from './remedy.ts';

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
    const names = (kind: 'hot' | 'ground') => hookup.joints.filter((joint) => joint.kind === kind).flatMap(leadTexts);
    const [hot, ground] = [names('hot'), names('ground')];
    return {
      what: (t) => {
        const missing =
          hot.length === 0
            ? t('no lead is hot')
            : ground.length === 0
              ? t('no lead is ground')
              : t('no path leads from hot {0} to ground {1}', listIn(t, hot), listIn(t, ground));
        if (floating.length === 0) return t('The pickup is silent: {0}.', missing);
        const loose = listIn(
          t,
          floating.map(({ name }) => name),
        );
        return floating.length > 1
          ? t('The pickup is silent: {0}; {1} are joined to nothing.', missing, loose)
          : t('The pickup is silent: {0}; {1} is joined to nothing.', missing, loose);
      },
      action: (t) =>
        hot.length === 0
          ? t('Say which lead is hot.')
          : ground.length === 0
            ? t('Say which lead is ground.')
            : t('Follow the path from hot through the coils to ground, and join it where it ends.'),
      place: hookup.place,
      related: floating.map((lead) => ({
        message: (t: Language) => t('{0} leaves the pickup here and is joined to nothing', lead.name),
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
      return remedy((t) => t('Join them: `{0}`', line), insert(line), floating.length === 2);
    }),
  );
}

/** Pairs grow with the square; a pickup with more loose leads than this wants a person, not a guess. */
const MOST_LEADS = 8;
