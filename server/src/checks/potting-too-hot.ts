import type { Quantity } from '../../../grammar/values/quantity.ts';
import { VAPOUR_FROM_C } from '../estimates/common-practice.ts';
import { bathC, bathLimits, meltsFromC, suggestedBathC } from '../estimates/potting.ts';
import type { Stated } from '../model/place.ts';
import { bathLimitWords } from '../words/bath-limits.ts';
import type { Language } from '../words/languages/language.ts';
import { listIn } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';

export const pottingTooHot = definePickupCheck({
  code: 'potting/too-hot',
  severity: 'error',
  yieldsTo: [],
  run: ({ pickup }) => {
    const { potting } = pickup;
    const bath = potting && bathC(potting);
    if (bath === undefined || !potting?.bath) return undefined;
    const line = potting.bath;
    const exceeded = bathLimits(pickup).filter(({ limitC }) => bath > limitC);
    if (exceeded.length === 0) return undefined;
    const plastic = exceeded.some(({ what }) => what === 'plastic');
    const byPlastic = pickup.coils.flatMap(({ bobbin }) => (plastic ? (bobbin?.plastic?.place ?? []) : []));
    return {
      what: (t) =>
        t(
          'A bath of {0} is too hot: {1}.',
          line.value.written,
          listIn(
            t,
            [...exceeded].reverse().map((each) => bathLimitWords(each, t)),
          ),
        ),
      ...(bath >= VAPOUR_FROM_C
        ? {
            hint: (t: Language) =>
              t('Hot wax can catch fire: never unattended, a lid and a dry-powder extinguisher at hand, never water.'),
          }
        : {}),
      action: (t) =>
        t(bath >= VAPOUR_FROM_C ? 'Lower the bath.' : 'Lower the bath, or try it on a scrap bobbin first.'),
      place: line.place,
      related: [...new Set(byPlastic)].map((place) => ({
        message: (t: Language) => t('The plastic of the bobbin'),
        place,
      })),
      remedies: () => remedies(line, suggestedBathC(pickup), meltsFromC(potting)),
      subject: { coils: pickup.coils.map(({ name }) => name) },
    };
  },
});

function remedies(bath: Stated<Quantity>, suggestedC: number, meltsC: number): Remedy | undefined {
  if (suggestedC < meltsC) return undefined;
  const { chunk, span } = bath.place;
  const text = chunk.text.slice(span.start, span.end);
  const at = text.search(/[-\d]/);
  if (at < 0) return undefined;
  return remedy(
    (t) => t('Lower the bath: `{0}`', `bath ${suggestedC} degC`),
    replaceAt({ chunk, span: { start: span.start + at, end: span.end } }, `${suggestedC} degC`),
    true,
  );
}
