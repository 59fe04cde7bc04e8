import { nearest } from '../../../grammar/src/nearest.ts';
import { usualSpelling } from '../../../grammar/values/iec60757.ts';
import type { LeadPath } from '../model/lead.ts';
import { list } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

export const leadUndeclared = definePickupCheck({
  code: 'lead/undeclared',
  severity: 'error',
  yieldsTo: [],
  run: ({ netlist, pickup }) => {
    const names = [...netlist.leads.keys()];
    const firstOf = ({ text }: LeadPath) => netlist.undeclared.find(({ path }) => path.text === text);
    return netlist.undeclared
      .filter((each) => firstOf(each.path) === each)
      .map(({ path, where }) => {
        const spelling = usualSpelling(path.text);
        const right =
          spelling && names.includes(spelling)
            ? spelling
            : nearest(
                path.text,
                candidates(
                  names,
                  pickup.coils.map(({ name }) => name),
                ),
              );
        return {
          what: say`No part of this pickup brings out ${path.text}: ${names.length ? say`what leaves it is ${list(names)}` : 'no lead leaves it'}.`,
          action: names.length
            ? say`Name one of these, or say which part brings out ${path.text}.`
            : say`Say which end of a coil it is, or which conductor.`,
          place: where,
          related: netlist.undeclared
            .filter((each) => each.where !== where && each.path.text === path.text)
            .map((each) => ({ message: say`${path.text} is named here too`, place: each.where })),
          remedies: () =>
            right === undefined ? undefined : remedy(say`Change to \`${right}\``, replaceAt(path.place, right), true),
          subject: { nodes: [path.text] },
        };
      });
  },
});

const candidates = (leads: readonly string[], coils: readonly string[]): readonly string[] => [
  ...leads,
  ...coils.flatMap((coil) => [`${coil}.start`, `${coil}.finish`]),
  'baseplate',
  'cover',
];
