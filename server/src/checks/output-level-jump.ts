import { JUMP_DB } from '../estimates/common-practice.ts';
import { hearsString, phaseOf } from '../estimates/phase.ts';
import type { SoundingCoil } from '../estimates/positions.ts';
import { joinsInSeries } from '../model/selection.ts';
import type { Language } from '../words/languages/language.ts';
import { positionWords } from '../words/parts.ts';
import { capital, listIn } from '../words/text.ts';
import { defineInstrumentCheck, type InstrumentContext, type SolvedPosition } from './instrument-check.ts';

/**
 * Solved at 0 Hz: far below the resonance the level hardly depends on frequency, so no inductance is needed. Where a pickup sits
 * and how near it stands to the strings is not known and is left out.
 */
export const outputLevelJump = defineInstrumentCheck({
  code: 'output/level-jump',
  severity: 'information',
  yieldsTo: ['circuit/open', 'circuit/output-shorted', 'phase/position-cancels', 'phase/unproven'],
  run: (context) => {
    const levels = [...positionLevels(context)].sort((a, b) => a.number - b.number);
    const middle = median(levels.map(({ db }) => db));
    const odd = new Map<Level, Level[]>();
    levels.slice(1).forEach((here, index) => {
      const before = levels[index];
      if (!before || here.number - before.number !== 1 || Math.abs(here.db - before.db) <= JUMP_DB) return;
      const [far, near] = Math.abs(here.db - middle) >= Math.abs(before.db - middle) ? [here, before] : [before, here];
      odd.set(far, [...(odd.get(far) ?? []), near]);
    });
    return [...odd].map(([{ solved, db }, neighbours]) => {
      const first = neighbours[0]?.db ?? middle;
      const { position } = solved;
      return {
        what: (t: Language) =>
          t(
            db < first
              ? '{0} is about {1} dB quieter than {2}, by turns and load alone: switching will be heard as a jump.'
              : '{0} is about {1} dB louder than {2}, by turns and load alone: switching will be heard as a jump.',
            capital(positionWords(position, t)),
            String(Math.round(Math.abs(db - first))),
            listIn(
              t,
              neighbours.map((each) => positionWords(each.solved.position, t)),
            ),
          ),
        action: (t: Language) => t('Bring the levels together, or say `on purpose` behind the position.'),
        place: position.place,
        related: neighbours.map((each) => ({
          message: (t: Language) => t('{0} is the neighbour', capital(positionWords(each.solved.position, t))),
          place: each.solved.position.place,
        })),
        subject: { position: position.key.value },
      };
    });
  },
});

interface Level {
  readonly solved: SolvedPosition;
  readonly number: number;
  readonly db: number;
}

/** Positions whose level is known. Pickups in series are loud by their nature, and what is out of phase is told as that. */
function positionLevels({ positions }: InstrumentContext): readonly Level[] {
  return positions.flatMap((solved): readonly Level[] => {
    const { position, coils, selection } = solved;
    if (position.onPurpose || joinsInSeries(selection) || coils.length === 0 || phaseOf(coils) === 'out') return [];
    const turns = coils.map(turnsHeard);
    if (turns.some((each) => each === undefined)) return [];
    const strongest = Math.max(
      ...stringsIn(coils).map((string) =>
        Math.abs(
          coils.reduce((sum, coil, index) => sum + (hearsString(coil.coil, string) ? (turns[index] ?? 0) : 0), 0),
        ),
      ),
    );
    return strongest > 0 ? [{ solved, number: Number(position.key.value), db: 20 * Math.log10(strongest) }] : [];
  });
}

/** Signed turns of a coil as they reach the jack. */
const turnsHeard = ({ stringTurns, transfer, string }: SoundingCoil): number | undefined =>
  stringTurns === undefined || string === undefined ? undefined : string * Math.abs(transfer) * stringTurns;

/** One string of each set that coils serve; none named: all coils hear it. */
function stringsIn(coils: readonly SoundingCoil[]): readonly (number | undefined)[] {
  const served = coils.flatMap(({ coil }) => {
    const serves = coil.serves?.value;
    return serves && serves !== 'none' ? [serves.from] : [];
  });
  return served.length > 0 ? served : [undefined];
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? 0) + upper) / 2;
}
