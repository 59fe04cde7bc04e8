import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { COIL_ENDS } from '../model/coil.ts';
import type { Language } from '../words/languages/language.ts';
import { replaceAt } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy } from './remedy.ts';

export const leadReused = definePickupCheck({
  code: 'lead/reused',
  severity: 'error',
  yieldsTo: ['lead/undeclared'],
  run: (context) => {
    const { netlist } = context;
    const twice = netlist.reused.filter(({ why }) => why === 'brought out twice');
    // A lead of hot and ground at once is a shorted output, and a coil's two ends in one net a shorted coil: told there.
    const shorted = netlist.hot !== undefined && netlist.hot === netlist.ground;
    const told = twice.length > 0 ? twice : shorted ? [] : netlist.reused;
    return told.map((each) => ({
      what:
        each.why === 'brought out twice'
          ? (t: Language) =>
              t('Two parts bring out a lead called {0}, so a joint that names it could mean either.', each.name)
          : (t: Language) =>
              t('{0} is named in two joints; a lead is soldered once, or the two joints are one.', each.name),
      action:
        each.why === 'brought out twice'
          ? (t: Language) => t('Name the ends of the coils in its place.')
          : (t: Language) => t('Name it in one of them, or make one joint of the two.'),
      place: each.place,
      related: [{ message: (t: Language) => t('{0} for the first time', each.name), place: each.first }],
      remedies: () => (each.why === 'brought out twice' ? nameTheEnds(context, each.name) : undefined),
      subject: { nodes: [`lead:${canonicalLeadName(each.name)}`] },
    }));
  },
});

/** Names the ends of the coils instead of the colour that both bring out. */
function nameTheEnds({ pickup }: PickupContext, written: string): Remedy | undefined {
  const name = canonicalLeadName(written);
  const ends = pickup.coils.flatMap((coil) =>
    COIL_ENDS.filter(
      (end) => coil[end]?.value.own && !coil[end].value.to && canonicalLeadName(coil[end].value.own.value) === name,
    ).map((end) => `${coil.name}.${end}`),
  );
  const uses = (pickup.hookup?.joints ?? []).flatMap(({ leads }) =>
    leads.filter((path) => canonicalLeadName(path.text) === name),
  );
  if (uses.length === 0 || uses.length !== ends.length) return undefined;
  const order = [...ends].reverse();
  const edits = order.map((end, index) => {
    const path = uses[index];
    return path && replaceAt(path.place, end);
  });
  return remedy((t) => t('Name the ends: {0}', order.join(' ')), edits, true);
}
