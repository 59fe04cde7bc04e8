import { heardTogether } from '../estimates/phase.ts';
import type { SoundingCoil } from '../estimates/positions.ts';
import type { CoilSigns } from '../estimates/signs.ts';
import { missingSigns } from '../words/directions.ts';
import { endLead, positionWords } from '../words/parts.ts';
import { capital, list } from '../words/text.ts';
import { defineInstrumentCheck, type InstrumentContext, type SolvedPosition } from './instrument-check.ts';
import { phaseUnproven } from './phase-unproven.ts';
import { say } from './say.ts';

/** Signs that only matter once pickups sound together. What a pickup leaves open inside itself is told at the pickup. */
export const phaseUnprovenPosition = defineInstrumentCheck({
  code: 'phase/unproven',
  severity: 'information',
  yieldsTo: ['circuit/open', 'circuit/output-shorted'],
  run: (context) => {
    const told = new Set<string>();
    return context.positions.map((solved) => {
      const phase = openCoils(solved, context, ({ string }) => string === undefined);
      const open = phase.length > 0 ? phase : openCoils(solved, context, ({ hum }) => hum === undefined);
      const fresh = open.filter((coil) => !told.has(causeOf(coil)));
      for (const coil of fresh) told.add(causeOf(coil));
      const first = fresh[0];
      if (!first) return undefined;
      const what = phase.length > 0 ? 'phase' : 'hum';
      const { position } = solved;
      return {
        what: say`Whether ${list(slotNames(solved.coils))} ${what === 'phase' ? 'are in phase' : 'cancel hum'} in ${positionWords(position)} is open: ${list(fresh.map((coil) => say`${missing(signsOf(coil), what)} of ${coilName(coil)}`))} ${fresh.length > 1 ? 'are' : 'is'} neither stated nor measured.`,
        action: say`Take ${list([...new Set(fresh.map((coil) => settles(coil, what)))])}.`,
        place: position.place,
        related: fresh.map((coil) => ({
          message: say`${capital(coilName(coil))} is the open one`,
          place: coil.placed.segment.coil.place,
        })),
        subject: { position: position.key.value, coils: fresh.map(({ placed }) => placed.segment.coil.name) },
      };
    });
  },
});

/** Coils with an open sign that sound together with a coil of another pickup, and whose pickup does not say so itself. */
function openCoils(
  { coils }: SolvedPosition,
  context: InstrumentContext,
  isOpen: (coil: SoundingCoil) => boolean,
): readonly SoundingCoil[] {
  return coils.filter(
    (coil) =>
      isOpen(coil) &&
      coils.some((other) => other.placed.slot !== coil.placed.slot && heardTogether(coil, other)) &&
      !toldAtPickup(coil, context),
  );
}

function toldAtPickup({ placed: { quick } }: SoundingCoil, { bench }: InstrumentContext): boolean {
  const { netlist } = quick;
  return phaseUnproven.run({ pickup: netlist.pickup, netlist, quick, bench }) !== undefined;
}

const causeOf = ({ placed: { quick, segment } }: SoundingCoil): string =>
  `${quick.netlist.pickup.name}.${segment.coil.name}`;

const slotNames = (coils: readonly SoundingCoil[]): readonly string[] => [
  ...new Set(coils.map(({ placed }) => placed.slot.name)),
];

const signsOf = ({ placed: { quick, segment } }: SoundingCoil): CoilSigns | undefined =>
  quick.signs.find(({ coil }) => coil === segment.coil);

function coilName({ placed: { slot, segment, quick } }: SoundingCoil): string {
  return quick.netlist.pickup.coils.length > 1 ? say`the ${segment.coil.name} coil of ${slot.name}` : slot.name;
}

const missing = (signs: CoilSigns | undefined, what: 'phase' | 'hum'): string =>
  what === 'hum' ? 'the winding direction' : missingSigns(signs ?? {});

/** The measurement that settles it. */
function settles(sounding: SoundingCoil, what: 'phase' | 'hum'): string {
  const { quick, segment } = sounding.placed;
  const { netlist } = quick;
  const at = netlist.pickup.coils.length > 1 ? say` at ${segment.coil.name}` : '';
  const kick = say`a kick \`${endLead(netlist, segment.coil, 'finish')} to ${endLead(netlist, segment.coil, 'start')}${at}\` with approach or pull-off stated`;
  const compass = say`a compass reading over ${coilName(sounding)}`;
  const signs = signsOf(sounding);
  if (what === 'hum') return signs?.windPole ? compass : signs?.pole ? kick : say`${kick}, and ${compass}`;
  return signs?.wind && !signs.pole ? compass : kick;
}
