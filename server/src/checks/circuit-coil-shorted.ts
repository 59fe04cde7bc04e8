import type { Some } from '../../../grammar/values/present.ts';
import { type Joint, leadTexts } from '../model/pickup.ts';
import type { Language } from '../words/languages/language.ts';
import { coilWords, endsWords } from '../words/parts.ts';
import { listIn } from '../words/text.ts';
import { insertLineAfter, rewriteJoint } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';

export const circuitCoilShorted = definePickupCheck({
  code: 'circuit/coil-shorted',
  severity: 'error',
  yieldsTo: ['lead/undeclared', 'lead/reused', 'circuit/output-shorted'],
  run: (context) => {
    const { netlist, quick, pickup } = context;
    return netlist.windings
      .filter(({ start, finish, ends }) => ends !== 'unknown' && start !== undefined && start === finish)
      .map(({ coil, start }) => {
        const joints = netlist.nets[start ?? -1]?.joints ?? [];
        const joint = joints.at(-1);
        const left = quick.signs.filter(
          (each) => each.coil !== coil && each.transfer !== undefined && each.transfer !== 0,
        );
        return {
          what: (t: Language) =>
            left.length > 0
              ? t(
                  'Both ends of {0} ({1}) are joined, so it is shorted and only {2} sounds.',
                  coilWords(coil, t),
                  endsWords(netlist, coil, t),
                  listIn(
                    t,
                    left.map((each) => coilWords(each.coil, t)),
                  ),
                )
              : t(
                  'Both ends of {0} ({1}) are joined, so it is shorted and gives nothing.',
                  coilWords(coil, t),
                  endsWords(netlist, coil, t),
                ),
          action: (t: Language) => t('Give the two ends joints of their own.'),
          place: joint?.place ?? coil.place,
          related: joint && { message: (t: Language) => t('{0} coil', coil.name), place: coil.place },
          remedies: () => joint && splits(joint),
          subject: {
            coils: [coil.name],
            nodes: [`coil:${coil.name}.start`, `coil:${coil.name}.finish`],
            pickup: pickup.name,
          },
        };
      });
  },
});

/** Takes two leads of the joint out into a link of their own: each pair is tried, those that leave a fault are not offered. */
function splits(joint: Joint): Some<Remedy> {
  const leads = leadTexts(joint).slice(0, MOST_LEADS);
  return leads.flatMap((a, index) =>
    leads.slice(index + 1).map((b) => {
      const rest = leadTexts(joint).filter((text) => text !== a && text !== b);
      if (rest.length === 0) return undefined;
      return remedy(
        (t) => t('Part them: `{0}` and `{1}`', `link ${a} ${b}`, `${joint.kind} ${rest.join(' ')}`),
        [rewriteJoint(joint, rest), insertLineAfter(joint.place, `link ${a} ${b}`)],
      );
    }),
  );
}

const MOST_LEADS = 8;
