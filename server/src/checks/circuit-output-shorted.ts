import { jointOf, leadTexts } from '../model/pickup.ts';
import { list } from '../words/text.ts';
import { removeLine, rewriteJoint } from './edits.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

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
    const follows = [
      ...(doubled.length ? [say`${list([...new Set(doubled)])} lies in two joints`] : []),
      ...(metal.length ? [say`${list(metal)} would be hot`] : []),
    ];
    return {
      what: say`Hot and ground are joined, so the pickup is silent${follows.length ? say`; ${follows.join(', ')}` : ''}.`,
      action: say`Take out the joint, or the lead in a joint, that brings the two together.`,
      place: hotLine?.place ?? pickup.hookup?.place ?? pickup.place,
      related: joints
        .filter((joint) => joint !== hotLine)
        .map((joint) => ({ message: say`${joint.kind} joins the same net`, place: joint.place })),
      remedies: () =>
        joints.flatMap((joint) => {
          const texts = leadTexts(joint);
          if (joint.kind === 'link') return remedy(say`Take out \`link ${texts.join(' ')}\``, removeLine(joint.place));
          return joint.leads.map((path, index) => {
            const rest = texts.filter((_, place) => place !== index);
            if (rest.length === 0) return undefined;
            const title = say`Take ${path.text} off: \`${joint.kind} ${rest.join(' ')}\``;
            return remedy(title, rewriteJoint(joint, rest), path === shared);
          });
        }),
      subject: { nodes: ['hot', 'ground'] },
    };
  },
});
