import { grouped } from '../../../grammar/values/quantity.ts';
import type { Coil } from '../model/coil.ts';
import { windingFit } from '../physics/coil-geometry.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { printCount, printValue } from '../quantities/print.ts';
import type { Language, Wording } from '../words/languages/language.ts';
import { numberText } from '../words/number-text.ts';
import { COIL_NUMBERS } from '../words/numbers.ts';
import { coilWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import { replaceNumber } from './edits.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy } from './remedy.ts';

export const windingDoesNotFit = definePickupCheck({
  code: 'winding/does-not-fit',
  severity: 'error',
  yieldsTo: [],
  run: (context) =>
    context.pickup.coils.map((coil) => {
      const winding = context.quick.windings.get(coil);
      const stated = coil.counted ?? coil.turns;
      const depth = coil.bobbin?.window?.value.depth;
      if (!winding?.buildM || !winding.windowFilled || !stated || !depth) return undefined;
      if (!(winding.windowFilled.value > 1)) return undefined;
      // Kept from the state before, it lies in its bobbin: what there was to say of it is said of that state.
      if (context.pickup.reworks && coil.work?.value === 'kept') return undefined;
      // The ± reaches into the window: the flange has to be watched, but nothing is certain.
      const sure = winding.windowFilled.value - winding.windowFilled.sd > 1;
      const { windowFilled: filled, buildM: build } = winding;
      const { packing, overallDiameterM: overall } = winding;
      const mm = ({ value, sd }: Pick<Estimate, 'value' | 'sd'>, t: Language) =>
        printValue({ value, sd, dimension: 'length', unit: 'mm', decimals: 3, style: t.numbers });
      return {
        what: (t: Language) => {
          const wound = [
            t('{0} turns', printCount(stated.value.si, t.numbers)),
            ...(overall ? [t('of {0} wire', mm(overall, t))] : []),
            ...(packing
              ? [t('at packing {0}', numberText({ value: packing.value, sd: 0 }, COIL_NUMBERS.packing, t))]
              : []),
          ].join(' ');
          return t(
            sure
              ? '{0} build {1} deep, the window of {2} has {3} ({4}): the flanges bulge or the last turns fall over them.'
              : '{0} build {1} deep, the window of {2} has {3} ({4}): it may just go in, and it may bulge the flanges.',
            wound,
            mm(build, t),
            coilWords(coil, t),
            depth.written,
            numberText(filled, COIL_NUMBERS.windowFilled, t),
          );
        },
        ...(sure ? {} : { severity: 'warning' as const }),
        ...(coil.counted
          ? {}
          : {
              action: (t: Language) => t('Wind fewer turns, or take thinner wire or a deeper bobbin.'),
            }),
        place: stated.place,
        related: coil.bobbinPlace && {
          message: (t: Language) => t('Its bobbin'),
          place: coil.bobbinPlace,
        },
        // A coil that was counted has been wound: only a plan can be changed.
        remedies: () => (coil.counted || !coil.turns ? undefined : remedies(coil, coil.turns.place, depth.si, context)),
        subject: { coils: [coil.name] },
      };
    }),
});

function remedies(coil: Coil, line: Parameters<typeof replaceNumber>[0], depthM: number, context: PickupContext) {
  const { quick, pickup } = context;
  const geometry = quick.windings.get(coil)?.geometry;
  if (!geometry) return undefined;
  const most = windingFit(geometry, 1, depthM).turnsThatFit;
  const plan = (turns: number, title: Wording, preferred: boolean) =>
    remedy(title, turns >= 1 && turns <= most ? replaceNumber(line, grouped(turns)) : undefined, preferred);
  const partner = pickup.coils.find((each) => each !== coil && quick.windings.get(each)?.turns);
  const match = Math.round(partner ? (quick.windings.get(partner)?.turns?.value ?? 0) : 0);
  const full = Math.floor(most / 10) * 10;
  return [
    partner
      ? plan(
          match,
          (t) =>
            t(
              '{0}: match {1} by turns, `{2}`',
              capital(coilWords(coil, t)),
              coilWords(partner, t),
              `turns ${grouped(match)}`,
            ),
          true,
        )
      : undefined,
    plan(full, (t) => t('Wind what the window holds, `{0}`', `turns ${grouped(full)}`), !partner),
  ];
}
