import { nearest } from '../../../grammar/src/nearest.ts';
import { usualSpelling } from '../../../grammar/values/iec60757.ts';
import type { LeadPath } from '../model/lead.ts';
import type { Language } from '../words/languages/language.ts';
import { listIn } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';

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
          what: (t: Language) =>
            names.length > 0
              ? t('No part of this pickup brings out {0}: what leaves it is {1}.', path.text, listIn(t, names))
              : t('No part of this pickup brings out {0}: no lead leaves it.', path.text),
          action: (t: Language) =>
            names.length > 0
              ? t('Name one of these, or say which part brings out {0}.', path.text)
              : t('Say which end of a coil it is, or which conductor.'),
          place: where,
          related: netlist.undeclared
            .filter((each) => each.where !== where && each.path.text === path.text)
            .map((each) => ({ message: (t: Language) => t('{0} is named here too', path.text), place: each.where })),
          remedies: () =>
            right === undefined
              ? undefined
              : remedy((t) => t('Change to `{0}`', right), replaceAt(path.place, right), true),
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
