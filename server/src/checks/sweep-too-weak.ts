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
  run: ({ quick }) => {
    const weak = newestSwept(quick).flatMap((swept) => {
      if (swept.kind !== 'coil' || swept.verdict === 'does not hold') return [];
      // Losses that are too small, or lie too far above the points, to be told change nothing that is heard.
      const untold = untoldOf(swept).filter(({ number }) => number !== 'losses');
      if (untold.length === 0) return [];
      const words = untold.map((each) => untoldWords(swept, each, quick.bench)).join(' ');
      return [{ swept, words, causes: untold.map(({ because }) => because).join() }];
    });
    // One set-up fails all sweeps alike: that is told once.
    const firsts = weak.filter(({ causes }, index) => weak.findIndex((each) => each.causes === causes) === index);
    return firsts.map(({ swept, words, causes }) => ({
      what: say`${filesWords(swept)}: ${words}`,
      action: say`${nextWords(swept, quick.netlist) ?? ''}`,
      place: sweepPlace(swept),
      related: weak
        .filter((each) => each.causes === causes && each.swept !== swept)
        .map((each) => ({ message: say`${each.words}`, place: sweepPlace(each.swept) })),
    }));
  },
});
