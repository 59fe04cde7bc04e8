/**
 * What a number rests on, in a few words beside it. Each is one of these with names, values and words of the spec in between, so that another
 * language can tell it: what is not in the list does not compile.
 */
const REASONS = [
  'uniform field; the steel of the poles is left out',
  'of a string heard at two places only what it sounds alike there cancels, over all its harmonics and held at the octave',
  'how loud coils of unknown turns are beside others, by the root of their inductance, to 30\u202F%',
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

  // What a reading that does not fit may come from, and what would tell.
  'open as before the link `{0}` was soldered',
  'a reading with that joint looked at',
  'that the joints were made already: the joined pickup reads so',
  'an open {0} coil, its wire broken or a joint held apart by enamel',
  'a reading of the {0} coil at its own two ends',
  'a probe that did not touch',
  'solder, a pinched lead or a bare end that joins what should be apart',
  'a short across it: solder or bare ends that touch',
  'a poor joint that adds {0}: enamel under the solder, or a dry joint',
  'a reading with the joint reheated',
  'a slip of the decimal point or the unit: {0} was meant',
  'a coil still warm, at about {0}',
  'a colder coil than stated, at about {0}',
  'a reading once the pickup has settled to the room',
  'a path of {0} beside it: hands on the probes, or the pickup read in circuit',
  'a reading out of circuit with no hand on the probes',
  'turns of the {0} coil shorted since the earlier readings',
  '{0} or the {1}',
  'a reading of each coil by itself',
  'an inductance reading of the {0} coil',
  'fewer turns on the {0} coil than stated: a counter that started late',
  'turns of the {0} coil shorted since the earlier reading',
  'shorted turns in the {0} coil, or a counter that started late',
  'more turns on the {0} coil than stated, or wire stretched thin by tension',
  '{0} wire on the {1} coil instead of the wire stated',
  'wire {0} that runs thicker than stated',
  'wire {0} that runs thinner than stated',
  'a reading of some metres of it',
  'shorted turns in the {0} coil',
  "the meter's own leads or a cable counted in",
  'a reading of the leads alone, taken off',
  'a resistance reading of the {0} coil',
  'more turns on the {0} coil than stated',
  'poles that were not in when it was read',
  'steel near it while it was read',
  'a probe on another lead than the one written',
  'probes on other leads than written, or leads that are mistaken for one another ({0} to {1} should read so)',
  'an open joint between the jack and the pickups, or a contact of the switch that does not close',
  'a broken coil',
  'hot touching ground at the jack, the switch or a pot: the output is shorted',
  'the switch in position {0}, which should read so, or its leads taken for one another',
  'the {0} coil of {1} in place of its {2} coil, which should read so: their leads taken for one another',
  '{0} does not reach the output: an open joint, a switch contact or a broken coil',
  'the {0} coil of {1} is bridged: its leads touch, or a split is left on',
  'a path of {0} beside it: a hand on the plug, an amplifier plugged in, or a smaller pot than stated',
  'a volume control that is not full up',
  'pickups warmer than the temperature stated',
  'pickups colder than the temperature stated',

  // What would settle a number sooner than anything else.
  'measure some metres of the spool: measures … ohm/m at … degC',
  'measure some metres of this wire, or its bare diameter; or read the coil itself',
  'measure the wire over its enamel: overall … mm',
  'measure how deep the winding is, which gives its packing: packing …',
  'measure the core and the winding space of the bobbin',
  'count the turns: counted …',
  'measure the resistor by itself, and state what it read: over 9.98 kohm ± 0.1 %',
  'sweep the recorder by itself: recorder alone … through …',
  'sweep the recorder by itself, or the pickup over 10 kohm',
  'measure with a more accurate meter',
  'measure the capacitor by itself, and state it: with … pF ± … %',
  'read it with a more accurate meter',
  'state the temperature of the reading: at … degC',
  'drive the pickup with a coil over its poles and read how high its peak is',
  'measure the inductance: inductance hot to ground … H at 1 kHz',
  'measure the distance of the coils: coils … mm apart',
  'read the tracks of the pots by themselves, and state what they read',
  'read the capacitors by themselves, and state what they read',
  'state the cable: cable 4.5 m of 110 pF/m',
  'measure the capacitance: capacitance … pF',

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
