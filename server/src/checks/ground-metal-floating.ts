import { foilsOf, isGrounded, isWired, type PickupNetlist } from '../model/netlist.ts';
import { jointOf } from '../model/pickup.ts';
import type { Language } from '../words/languages/language.ts';
import { coilWords } from '../words/parts.ts';
import { insertLineAfter, replaceAt } from './edits.ts';
import { floatingLeads } from './lead-floating.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';

export const groundMetalFloating = definePickupCheck({
  code: 'ground/metal-floating',
  severity: 'warning',
  yieldsTo: ['lead/undeclared', 'circuit/output-shorted'],
  run: ({ netlist, pickup }) => {
    if (!pickup.hookup) return [];
    // An open end that the metal hangs on is told as the lead that it is.
    const open = new Set(floatingLeads(netlist).map(({ node }) => netlist.netOf(node)));
    const isLoose = ({ net }: { readonly net: number }) => !isWired(netlist, net) && !isGrounded(netlist, net);
    const loose = netlist.metal.filter((each) => isLoose(each) && !open.has(each.net));
    const foils = foilsOf(netlist).filter((foil) => isLoose(foil) && !loose.some(({ net }) => net === foil.net));
    return [
      ...foils.map(({ coil, place }) => ({
        what: (t: Language) => t('The foil of {0} is joined to nothing: it shields nothing.', coilWords(coil, t)),
        action: (t: Language) => t('Tie it to what is grounded.'),
        place,
        subject: { coils: [coil.name] },
      })),
      ...loose
        // Parts tied to one another float from one cause: it is told at the one that should have been tied further.
        .filter((each) => causeAmong(loose.filter(({ net }) => net === each.net)) === each)
        .map(({ name, fitting, place }) => ({
          what: (t: Language) =>
            t(
              'The {0} is joined to nothing: it shields nothing and buzzes when touched.',
              fitting === 'shield' ? `${t('shield')} ${t.word(name)}` : t.word(name),
            ),
          action: (t: Language) => t('Tie it to what is grounded.'),
          place,
          remedies: () => {
            if (fitting === 'shield') {
              const ground = jointOf(pickup, 'ground');
              return remedy(
                (t) => t('Ground it: `{0}`', `shield ${name}`),
                ground && insertLineAfter(ground.place, `shield ${name}`),
                true,
              );
            }
            const line = [name, fitting.material, fitting.thickness?.written]
              .filter((each) => each !== undefined)
              .join(' ');
            const targets = netlist.metal.filter((each) => each.name !== name && isGrounded(netlist, each.net));
            return targets
              .reverse()
              .map(({ name: target }, index) =>
                remedy(
                  (t) => t('Tie it to {0}: `{1}`', t.word(target), `${line} tied to ${target}`),
                  replaceAt(fitting.place, `${line} tied to ${target}`),
                  index === 0,
                ),
              );
          },
          subject: { nodes: [`part:${fitting === 'shield' ? 'shield' : name}`] },
        })),
    ];
  },
});

type Metal = PickupNetlist['metal'][number];

const causeAmong = (tied: readonly Metal[]): Metal | undefined =>
  tied.find(({ fitting }) => fitting === 'shield' || !fitting.tiedTo) ?? tied[0];
