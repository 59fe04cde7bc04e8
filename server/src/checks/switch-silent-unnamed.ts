import { stateWords } from '../words/switch-words.ts';
import { list } from '../words/text.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { say } from './say.ts';

/** States of the switches that no position names, and in which nothing sounds: no fault, and worth knowing. All in one. */
export const switchSilentUnnamed = defineInstrumentCheck({
  code: 'switch/silent',
  severity: 'information',
  yieldsTo: ['switch/lug-serves-two', 'switch/position-differs', 'switch/hot-shorted'],
  run: ({ switching, written }) => {
    const [first] = written.switches;
    const silent = (switching?.states ?? []).filter(
      ({ meaning, positions }) => positions.length === 0 && meaning.fault === 'open',
    );
    if (!first || silent.length === 0 || written.positions.length === 0) return undefined;
    const shown = silent.slice(0, MOST_TOLD).map(({ state }) => stateWords(written, state));
    const more = silent.length - shown.length;
    return {
      what: say`Nothing sounds with ${list([...shown, ...(more > 0 ? [say`${more} more states`] : [])])}, which no position names.`,
      action: say`Where it is meant, nothing is to be done; else add the position, or bring a lead there.`,
      place: first.place,
      subject: { nodes: [first.name] },
    };
  },
});

const MOST_TOLD = 3;
