/** What is heard once a plan is done: of each pickup by itself, or of every position of the instrument. */
import { given } from '../../../grammar/values/present.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { pickupAnalysis, quickOf } from '../analysis/pickup-analysis.ts';
import { humVerdict } from '../estimates/phase.ts';
import { positionLevels } from '../estimates/positions.ts';
import type { Heard } from '../words/heard.ts';
import type { Scope } from './scope.ts';

export function outlookOf({ bench }: Analysis, { pickups, instrument }: Scope): readonly Heard[] {
  if (!instrument)
    return pickups.map((pickup) => {
      const { phase, signalDb, humDb } = pickupAnalysis(pickup, bench).quick;
      const hum = humDb && pickup.coils.length > 1 ? humVerdict(humDb.value) : undefined;
      return { pickup: pickup.name, phase, hum, signalDb, humDb };
    });
  const at = { instrument, quickOf: quickOf(bench), bench };
  return instrument.positions.map((position) => {
    const { key, title, ...levels } = positionLevels(at, position);
    return { position: key, ...given({ title }), ...levels };
  });
}
