import { askedTexts } from '../estimates/selection-network.ts';
import type { WiredPosition } from '../estimates/switch-states.ts';
import { positionWords } from '../words/parts.ts';
import { selectionWords } from '../words/selections.ts';
import { capital } from '../words/text.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { say } from './say.ts';
import { WRONG_WIRING } from './switch-faults.ts';

/** Two positions that do not say the same, and do. */
export const switchPositionsSame = defineInstrumentCheck({
  code: 'switch/positions-same',
  severity: 'warning',
  yieldsTo: WRONG_WIRING,
  run: ({ switching }) => {
    const positions = (switching?.positions ?? []).filter(
      ({ meaning, verdict }) => meaning.fault === undefined && verdict !== 'differs',
    );
    return positions.map((second, index) => {
      const first = positions.slice(0, index).find((each) => each.meaning.text === second.meaning.text);
      if (!first || saysSame(first, second)) return undefined;
      const { position, sounds } = second;
      const what = sounds ? say`: both give ${selectionWords(sounds)}` : '';
      return {
        what: say`${capital(positionWords(position))} sounds like ${positionWords(first.position)}${what}.`,
        action: say`Compare the joints of the two.`,
        place: position.place,
        related: [{ message: say`the position that it sounds like`, place: first.position.place }],
        subject: { position: position.key.value },
      };
    });
  },
});

const saysSame = (a: WiredPosition, b: WiredPosition): boolean =>
  a.asked !== undefined && b.asked !== undefined && askedTexts(a.asked).text === askedTexts(b.asked).text;
