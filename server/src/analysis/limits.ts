/**
 * What is solved at most. No build comes near; a text that does is a slip or a trial, and must neither hold up what others ask nor
 * look clean: what is left out is told where it stands.
 */
import type { Finding, Subject } from '../checks/finding.ts';
import { type Said, say } from '../checks/say.ts';
import { told } from '../checks/telling.ts';
import type { Instrument } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import { partsOf } from '../model/selection.ts';
import { MOST_STATES } from '../physics/switching/rig.ts';

/** Of one pickup: twelve strings with four coils each. */
const MOST_COILS = 48;
const MOST_READING_LINES = 2_000;
/** Of one instrument: four switches of three places make 81. */
const MOST_POSITIONS = 200;
const MOST_CONTROLS = 100;
/** Lugs of its switches, and terminals that its wiring names. */
const MOST_TERMINALS = 250;
/** Pickups and coils that one position joins, each as often as it is named. */
const MOST_PARTS = 200;

/** What goes past a limit, with the limit; `undefined` where nothing does. */
export function pickupPastLimit({ coils, readings }: Pickup): Said | undefined {
  const lines = readings.reduce((count, block) => count + block.lines.length, 0);
  return past(coils.length, MOST_COILS, say`coils`) ?? past(lines, MOST_READING_LINES, say`lines of readings`);
}

export function instrumentPastLimit({ positions, controls, slots, switches, wiring }: Instrument): Said | undefined {
  const lugs = switches.reduce((count, { part }) => count + (part?.lugs.length ?? 0), 0);
  const named = (wiring?.lines ?? []).reduce((count, { terminals }) => count + terminals.length, 0);
  const states = switches.reduce((count, { part }) => count * (part?.detents.length ?? 1), 1);
  const most = Math.max(0, ...positions.map(({ selection }) => (selection ? partsOf(selection).length : 0)));
  return (
    past(positions.length, MOST_POSITIONS, say`positions`) ??
    past(controls.length, MOST_CONTROLS, say`controls`) ??
    past(most, MOST_PARTS, say`parts in one position`) ??
    past(lugs + named, MOST_TERMINALS, say`lugs and terminals`) ??
    past(states, MOST_STATES, say`states of its switches`) ??
    slots.flatMap(({ name, pickup }) => {
      const why = pickup && pickupPastLimit(pickup);
      return why === undefined ? [] : [say`its pickup ${name} has ${why}`];
    })[0]
  );
}

const past = (count: number, most: number, what: Said): Said | undefined =>
  count > most ? say`${count} ${what}, more than the ${most} that are solved` : undefined;

/** Of a whole pickup or instrument that is left out. */
export const leftOut = (what: Said, place: Place, subject: Subject, why: Said): Finding => ({
  code: 'analysis/incomplete',
  severity: 'error',
  ...told({
    what: say`${what} is read and not solved: ${why}.`,
    hint: say`Signs, hum, resistance, readings and all other numbers of it are left out.`,
    action: say`Divide it into several.`,
  }),
  place,
  related: [],
  remedies: () => [],
  subject,
});
