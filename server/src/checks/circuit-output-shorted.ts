import { jointOf, leadTexts } from '../model/pickup.ts';
import type { Language } from '../words/languages/language.ts';
import { listIn } from '../words/text.ts';
import { removeLine, rewriteJoint } from './edits.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';

export const circuitOutputShorted = definePickupCheck({
  code: 'circuit/output-shorted',
  severity: 'error',
  yieldsTo: ['lead/undeclared'],
  run: ({ netlist, pickup }) => {
    const { hot, ground, chassis } = netlist;
    if (hot === undefined || (hot !== ground && hot !== chassis)) return undefined;
    const joints = (pickup.hookup?.joints ?? []).filter(({ kind }) => kind !== 'free');
    const doubled = netlist.reused.filter(({ why }) => why === 'in two joints').map(({ name }) => name);
    const metal = netlist.metal
      .filter(({ net, fitting }) => net === hot && fitting !== 'shield')
      .map(({ name }) => name);
    const hotLine = jointOf(pickup, 'hot');
    const shared = hotLine?.leads.find(({ text }) => doubled.includes(text));
    return {
      what: (t) => {
        const follows = [
          ...(doubled.length ? [t('{0} lies in two joints', listIn(t, [...new Set(doubled)]))] : []),
          ...(metal.length
            ? [
                t(
                  '{0} would be hot',
                  listIn(
                    t,
                    metal.map((each) => t.word(each)),
                  ),
                ),
              ]
            : []),
        ];
        return follows.length > 0
          ? t('Hot and ground are joined, so the pickup is silent; {0}.', follows.join(', '))
          : t('Hot and ground are joined, so the pickup is silent.');
      },
      action: (t) => t('Take out the joint, or the lead in a joint, that brings the two together.'),
      place: hotLine?.place ?? pickup.hookup?.place ?? pickup.place,
      related: joints
        .filter((joint) => joint !== hotLine)
        .map((joint) => ({ message: (t: Language) => t('{0} joins the same net', joint.kind), place: joint.place })),
      remedies: () =>
        joints.flatMap((joint) => {
          const texts = leadTexts(joint);
          if (joint.kind === 'link')
            return remedy((t) => t('Take out `{0}`', `link ${texts.join(' ')}`), removeLine(joint.place));
          return joint.leads.map((path, index) => {
            const rest = texts.filter((_, place) => place !== index);
            if (rest.length === 0) return undefined;
            const left = `${joint.kind} ${rest.join(' ')}`;
            return remedy((t) => t('Take {0} off: `{1}`', path.text, left), rewriteJoint(joint, rest), path === shared);
          });
        }),
      subject: { nodes: ['hot', 'ground'] },
    };
  },
});
