import { bathC, meltsFromC } from '../estimates/potting.ts';
import { printCelsius } from '../quantities/print.ts';
import { definePickupCheck } from './pickup-check.ts';

export const pottingTooCold = definePickupCheck({
  code: 'potting/too-cold',
  severity: 'hint',
  yieldsTo: [],
  run: ({ pickup }) => {
    const { potting } = pickup;
    const bath = potting && bathC(potting);
    if (bath === undefined || !potting?.bath) return undefined;
    const meltsC = meltsFromC(potting);
    if (bath >= meltsC) return undefined;
    const { written } = potting.bath.value;
    return {
      what: (t) =>
        t(
          'A bath of {0} does not melt the main wax of the mix: its softest grade melts at {1}.',
          written,
          printCelsius(meltsC, t.numbers),
        ),
      action: (t) => t('Warm the bath, or take a softer wax.'),
      place: potting.bath.place,
    };
  },
});
