import { positionWords } from '../words/parts.ts';
import { selectionWords } from '../words/selections.ts';
import { capital } from '../words/text.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { say } from './say.ts';
import { changesToRight, remediesOf, WRONG_WIRING } from './switch-faults.ts';

/** As wired, all of a position is turned over: hot and ground are exchanged for it. */
export const switchUpsideDown = defineInstrumentCheck({
  code: 'switch/upside-down',
  severity: 'information',
  yieldsTo: WRONG_WIRING,
  run: ({ switching, written }) =>
    (switching?.positions ?? []).flatMap(({ position, verdict }, _, all) =>
      verdict === 'turned' && !all.some((each) => each.verdict === 'differs') && position.selection
        ? [
            {
              what: say`${capital(positionWords(position))} gives ${selectionWords(position.selection)} the other way round: what it has toward ground is on hot.`,
              hint: say`Alone nobody hears it; beside another pickup it would cancel.`,
              action: say`Exchange its two ends at the lugs, or say \`reversed\` in the position.`,
              place: position.place,
              remedies: () =>
                switching &&
                remediesOf(
                  changesToRight(switching, written, () => false),
                  written,
                ),
              subject: { position: position.key.value },
            },
          ]
        : [],
    ),
});
