import { bathC, meltsFromC } from '../estimates/potting.ts';
import { printCelsius } from '../quantities/print.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';

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
    return {
      what: say`A bath of ${potting.bath.value.written} does not melt the main wax of the mix: its softest grade melts at ${printCelsius(meltsC)}.`,
      action: say`Warm the bath, or take a softer wax.`,
      place: potting.bath.place,
    };
  },
});
