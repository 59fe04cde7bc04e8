import { untoldOf } from '../estimates/sweep-advice.ts';
import { newestSwept } from '../estimates/sweep-diagnosis.ts';
import { filesWords, nextWords, untoldWords } from '../words/sweep-words.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
import { sweepPlace } from './sweep-place.ts';

export const sweepTooWeak = definePickupCheck({
  code: 'sweep/too-weak',
  severity: 'information',
  late: true,
  yieldsTo: ['sweep/set-up', 'sweep/open', 'sweep/circuit-differs'],
  run: ({ quick }) =>
    newestSwept(quick).flatMap((swept) => {
      if (swept.kind !== 'coil' || swept.verdict === 'does not hold') return [];
      // Losses that are too small to be told change nothing that is heard.
      const untold = untoldOf(swept).filter(({ because }) => because !== 'hardly any');
      if (untold.length === 0) return [];
      return [
        {
          what: say`${filesWords(swept)}: ${untold.map((each) => untoldWords(swept, each, quick.bench)).join(' ')}`,
          action: say`${nextWords(swept) ?? ''}`,
          place: sweepPlace(swept),
        },
      ];
    }),
});
