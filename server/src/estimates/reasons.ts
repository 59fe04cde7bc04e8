/**
 * What a number rests on, in a few words beside it. Each is one of these with names, values and words of the spec in between, so that another
 * language can tell it: what is not in the list does not compile.
 */
const REASONS = [
  'uniform field; the steel of the poles is left out',
  'of a string heard at two places only what it sounds alike there cancels, over all its harmonics and held at the octave',
  'magnets alike: what a stronger or weaker one changes is left out',
  'the blend of {0} and {1} left out, they are in series here',
  'load: 500\u202FkΩ volume and tone at 10, 22\u202FnF, {0} of cable, 1\u202FMΩ',
  'without a load',
  'cable {0}, input {1}, volume {2}, tone {3}',
  '{0}, blend {1}',
  '{0}, {1} at volume {2} and tone {3}',
  '{0} of {1}',
  '{0}, as chosen',
  '{0}, assumed',
  'joined directly',
  'controls apart',
  'at {0}',
  'coils that nobody read alike, assumed',

  'turns as counted',
  'turns as planned',
  'turns from its part of a reading',
  'turns from {0}',
  'its reading of {0}',
  'its sweep {0}',
  'low end of the sweep {0} at {1}',
  'reading {0} at {1}, brought to low frequency',
  'reading {0}, its frequency not stated',
  'reading {0} at {1}',
  "the bench's {0}, assumed",
  'reading {0}',
  'packing {0}',
  'spool {0} measures {1} at 20\u202F°C, assumed',
  'spool {0} measures {1}',
  '{0} bare by its nominal diameter, within the tolerance of {1}',
  '{0} by its nominal diameter, within the tolerance of {1}',
  'overall {0}',
  '{0} build by {1}',
  'batch {0}',

  'wax between turns, with clearances of 1 to 6 % of the wire, assumed',
  'air between turns, with clearances of 1 to 6 % of the wire, assumed',
  'traverse {0}',
  '{0} turns in a pass, assumed',
  'outermost turns to grounded foil on {0} of tape, assumed',
  'innermost turns to grounded poles',
  'a grounded cover about the coil',
  'no cover about the coil',
  'capacitance of a usual coil',
  'its cable of {0}: {1}',
  'one conductor in a braid, {0}',
  'conductors in a shield, {0}',
  'a pair of wires, {0}',

  'bar magnet and keeper beneath the poles add 0 to 25 %, assumed',
  'steel baseplate beneath the poles add 0 to 25 %, assumed',
  'a steel cover raises the inductance as a closed round one does, to half of it',
  'poles of {0}, flush with the upper flange, assumed',
  'coils {0} apart, assumed',
  'eddy currents in steel poles',
  'eddy currents in alnico poles',
  'alnico bar under steel poles, as a round case has it',
  '{0} of {1}, as a round one of usual thickness has it, whatever its own',
  '{0} of {1}, {2} thick, assumed, {3} off the bobbins and as deep, assumed',
  '{0} of {1}, {2} thick, {3} off the bobbins and as deep, assumed',
  '{0} of {1}, {2}, below the bar magnet, assumed',
  '{0} of {1}, {2}, below the poles, assumed',
  '{0} thick, assumed',
  '{0} thick',

  '{0}, nominal ({1})',
  'remanence {0}, coercivity {1}, as stated',
  '{0} rods, nominal',
  'fully charged',
  '{0} over the pole tops',
  'keeper and gaps left out',
  'A cast alnico magnet that was taken off its poles, dropped, or brought near another magnet works on a lower minor loop until it is charged again in place.',

  'sweep {0}, {1}',
  'sweep {0}',
] as const;

export type Reason = (typeof REASONS)[number];

export const because = (reason: Reason, ...between: readonly (string | number)[]): string =>
  reason.replace(/\{(\d)\}/g, (_, index: string) => String(between[Number(index)] ?? ''));

/** The reason that a text was made of, with what stands in between; `undefined` of a text that is none. */
export function reasonIn(text: string): { readonly reason: Reason; readonly between: readonly string[] } | undefined {
  for (const { reason, pattern } of PATTERNS) {
    const found = pattern.exec(text);
    if (found) return { reason, between: found.slice(1) };
  }
  return undefined;
}

/** The one with most words of its own first, where several would fit. */
const PATTERNS = REASONS.map((reason) => {
  const literal = reason.split(/\{\d\}/).map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  return { reason, words: literal.join('').length, pattern: new RegExp(`^${literal.join('(.+?)')}$`) };
}).sort((a, b) => b.words - a.words);
