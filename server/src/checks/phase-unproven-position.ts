import { heardTogether } from '../estimates/phase.ts';
import type { SoundingCoil } from '../estimates/positions.ts';
import type { CoilSigns } from '../estimates/signs.ts';
import { missingSigns } from '../words/directions.ts';
import type { Language } from '../words/languages/language.ts';
import { coilWords, endLead, positionWords } from '../words/parts.ts';
import { capital, listIn } from '../words/text.ts';
import { defineInstrumentCheck, type InstrumentContext, type SolvedPosition } from './instrument-check.ts';
import { phaseUnproven } from './phase-unproven.ts';

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
        what: (t: Language) =>
          t(
            OPEN[what][fresh.length > 1 ? 'several' : 'one'],
            listIn(t, slotNames(solved.coils)),
            positionWords(position, t),
            listIn(
              t,
              fresh.map((coil) => t('{0} of {1}', missing(signsOf(coil), what, t), coilName(coil, t))),
            ),
          ),
        action: (t: Language) =>
          capital(t('Take {0}.', listIn(t, [...new Set(fresh.map((coil) => settles(coil, what, t)))]))),
        place: position.place,
        related: fresh.map((coil) => ({
          message: (t: Language) => t('{0} is the open one', capital(coilName(coil, t))),
          place: coil.placed.segment.coil.place,
        })),
        subject: { position: position.key.value, coils: fresh.map(({ placed }) => placed.segment.coil.name) },
      };
    });
  },
});

const OPEN = {
  phase: {
    one: 'Whether {0} are in phase in {1} is open: {2} is neither stated nor measured.',
    several: 'Whether {0} are in phase in {1} is open: {2} are neither stated nor measured.',
  },
  hum: {
    one: 'Whether {0} cancel hum in {1} is open: {2} is neither stated nor measured.',
    several: 'Whether {0} cancel hum in {1} is open: {2} are neither stated nor measured.',
  },
} as const;

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

function coilName({ placed: { slot, segment, quick } }: SoundingCoil, t: Language): string {
  return quick.netlist.pickup.coils.length > 1 ? t('{0} of {1}', coilWords(segment.coil, t), slot.name) : slot.name;
}

const missing = (signs: CoilSigns | undefined, what: 'phase' | 'hum', t: Language): string =>
  what === 'hum' ? t('the winding direction') : missingSigns(signs ?? {}, t);

/** The measurement that settles it. */
function settles(sounding: SoundingCoil, what: 'phase' | 'hum', t: Language): string {
  const { quick, segment } = sounding.placed;
  const { netlist } = quick;
  const at = netlist.pickup.coils.length > 1 ? ` at ${segment.coil.name}` : '';
  const probes = `${endLead(netlist, segment.coil, 'finish')} to ${endLead(netlist, segment.coil, 'start')}${at}`;
  const kick = t('a kick `{0}` with approach or pull-off stated', probes);
  const compass = t('a compass reading over {0}', coilName(sounding, t));
  const signs = signsOf(sounding);
  if (what === 'hum') return signs?.windPole ? compass : signs?.pole ? kick : t('{0}, and {1}', kick, compass);
  return signs?.wind && !signs.pole ? compass : kick;
}
