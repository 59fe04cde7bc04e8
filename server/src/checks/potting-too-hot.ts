import type { Quantity } from '../../../grammar/values/quantity.ts';
import { bathC, bathLimits, meltsFromC, suggestedBathC } from '../estimates/potting.ts';
import type { Stated } from '../model/place.ts';
import { capital, list } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck } from './pickup-check.ts';

export const pottingTooHot = definePickupCheck({
  code: 'potting/too-hot',
  severity: 'error',
  yieldsTo: [],
  run: ({ pickup }) => {
    const { potting } = pickup;
    const bath = potting && bathC(potting);
    if (bath === undefined || !potting?.bath) return [];
    const line = potting.bath;
    const exceeded = bathLimits(pickup).filter(({ limitC }) => bath > limitC);
    if (exceeded.length === 0) return [];
    const plastic = exceeded.some(({ what }) => what === 'plastic');
    const byPlastic = pickup.coils.flatMap(({ bobbin }) => (plastic ? (bobbin?.plastic?.place ?? []) : []));
    return [
      {
        message: `A bath of ${line.value.written} is too hot: ${list([...exceeded].reverse().map(({ words }) => words))}. ${capital(caution(bath))}`,
        place: line.place,
        related: [...new Set(byPlastic)].map((place) => ({ message: 'The plastic of the bobbin', place })),
        remedies: () => remedies(line, suggestedBathC(pickup), meltsFromC(potting)),
        subject: { coils: pickup.coils.map(({ name }) => name) },
      },
    ];
  },
});

/** From here the vapour matters, not only the pickup. Common practice, no published source. */
const caution = (bath: number): string =>
  bath >= 100
    ? 'hot wax can catch fire: never unattended, a lid and a dry-powder extinguisher at hand, never water.'
    : 'try it on a scrap bobbin first if you must.';

function remedies(bath: Stated<Quantity>, suggestedC: number, meltsC: number): readonly Remedy[] {
  if (suggestedC < meltsC) return [];
  const { chunk, span } = bath.place;
  const text = chunk.text.slice(span.start, span.end);
  const at = text.search(/[-\d]/);
  if (at < 0) return [];
  return [
    {
      title: `Lower the bath: \`bath ${suggestedC} degC\``,
      edits: [replaceAt({ chunk, span: { start: span.start + at, end: span.end } }, `${suggestedC} degC`)],
      kind: 'build',
      preferred: true,
    },
  ];
}
