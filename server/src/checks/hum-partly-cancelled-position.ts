import { AS_PLAYED, positionNetwork } from '../estimates/position-network.ts';
import { humSources, phaseOf, type SoundingCoil } from '../estimates/positions.ts';
import { benchMainsHz } from '../model/bench.ts';
import { combinedLevelDb } from '../physics/circuit/combined-level.ts';
import { printDb } from '../quantities/print.ts';
import { positionWords } from '../words/parts.ts';
import { list } from '../words/text.ts';
import { defineInstrumentCheck, type InstrumentContext, type SolvedPosition } from './instrument-check.ts';

export const positionPartlyCancelled = defineInstrumentCheck({
  code: 'hum/partly-cancelled',
  severity: 'information',
  late: true,
  yieldsTo: ['circuit/open', 'circuit/output-shorted', 'phase/position-cancels', 'hum/position-hums'],
  run: (context) =>
    context.positions.flatMap((solved) => {
      const { position, coils } = solved;
      if (!cancelsAcross(coils) || phaseOf(coils) === 'out') return [];
      const left = residueDb(solved, context);
      if (left === undefined || left <= REPORTED_ABOVE_DB || left > -1) return [];
      return [
        {
          message:
            `In ${positionWords(position)} hum cancels only in part: ${printDb(left)} of the strongest coil's hum in the same place is left by the best estimate; ` +
            `${reason(coils)}.`,
          place: position.place,
          subject: { position: position.key.value },
        },
      ];
    }),
});

/** What slug or screw steel leaves of a real null. */
const REPORTED_ABOVE_DB = -30;

/**
 * True where coils of different pickups, or parts of one taken by themselves, cancel each other. What a whole pickup leaves of its
 * own hum is told at the pickup.
 */
function cancelsAcross(coils: readonly SoundingCoil[]): boolean {
  if (coils.length < 2 || coils.some(({ hum }) => hum === undefined)) return false;
  const groups = new Map<string, number>();
  for (const { placed, hum = 1, transfer } of coils) {
    const { source } = placed.segment;
    const key = source.slice(0, source.lastIndexOf('.'));
    const area = placed.quick.windings.get(placed.segment.coil)?.turnAreaM2?.value ?? 1;
    groups.set(key, (groups.get(key) ?? 0) + hum * Math.abs(transfer) * area);
  }
  const nets = [...groups.values()];
  const strongest = Math.max(...nets.map(Math.abs));
  const audible = nets.filter((net) => Math.abs(net) > 0.1 * strongest);
  return audible.some((net) => net > 0) && audible.some((net) => net < 0);
}

function residueDb(
  { selection }: SolvedPosition,
  { instrument, quickOf, bench }: InstrumentContext,
): number | undefined {
  const played = positionNetwork(instrument, selection, quickOf, AS_PLAYED);
  const db = combinedLevelDb(played.network, played.output, humSources(played), benchMainsHz(bench));
  return typeof db === 'string' ? undefined : db;
}

function reason(coils: readonly SoundingCoil[]): string {
  const wires = new Set(
    coils.map(({ placed }) => placed.segment.coil.wire?.gaugeAwg?.value ?? placed.segment.coil.wire?.name),
  );
  const turns = list(
    coils.map(
      ({ placed: { slot, segment, quick } }) =>
        `${Math.round(quick.windings.get(segment.coil)?.turns?.value ?? 0)} turns in ${slot.name}.${segment.coil.name}`,
    ),
  );
  return `the coils weigh by turns over impedance, and they are unequal (${turns}${wires.size > 1 ? ', in different wire' : ''})`;
}
