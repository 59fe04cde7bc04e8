import type { Plastic } from '../model/bobbin.ts';

/**
 * What the estimates, the checks and the plans take for granted where a spec says nothing: every such number of this part on one
 * page, to be reviewed by people of the trade. Common practice, no published source, unless another source stands beside it. Figures
 * that belong to one formula stand in the header of its kernel in physics/.
 */

// A meter and what it is clipped to.

/** From here on a reading counts as open: insulation, not copper. */
export const OPEN_FROM_OHM = 1e6;
/** Probes, clips and leads. */
export const PROBES_OHM = 2;
/** Plug, switch and probes. */
export const JACK_CONTACTS_OHM = 3;
/** Below this, between two leads or at the jack, lie copper, solder and contacts, no winding. */
export const SHORT_OHM = PROBES_OHM + JACK_CONTACTS_OHM;
/** Less than this share of what is expected is no winding any more. */
export const SHORT_SHARE = 0.02;
/** Damp to dry hands, pots from 250 kΩ, and an amplifier's input of 1 MΩ, which a circuit may lie beside. */
export const BESIDE_OHM = { least: 60e3, most: 1.2e6 } as const;
/** Two dry hands on the probes. */
export const HANDS_OHM = 200e3;
/** Standard deviations of what is computed that a reading may be off before it is doubted. */
export const READING_SPREAD_SD = 3;
/** A bench inductance meter on a lossy coil, relative; and where nobody says at which frequency. */
export const INDUCTANCE_METER_RELATIVE_SD = 0.02;
export const INDUCTANCE_METER_ANY_FREQUENCY_RELATIVE_SD = 0.04;
/** A capacitance that is derived from a resonance or read across a coil. */
export const CAPACITANCE_READING_RELATIVE_SD = 0.05;
/** A workshop micrometer on enamelled wire. */
export const MICROMETER_SD_M = 1e-6;
/** A spool measured over some metres with a bench meter, where no ± is stated. */
export const SPOOL_READING_RELATIVE_SD = 0.005;
/** A cause whose size is taken from one reading fits another within this, relative. */
export const CAUSE_FITS_WITHIN = 0.015;
/** A single shorted turn is not seen in an inductance; what is seen takes a tenth and more. */
export const SHORTED_MOST_LEFT = 0.9;
/** How near to a whole gauge number a wire must come to be that gauge: one spool varies by a fifth of a number. */
export const GAUGE_NUMBER_LIMIT = 0.2;
/** How far the share of wire up to a tap is known: inner turns are shorter, by how much depends on the wind. */
export const TAP_SHARE_LIMIT = 0.05;
/** What one spool may differ from its nominal resistance by. */
export const SPOOL_SPREAD = 0.12;

/** A number this loose, one standard deviation as a share of it, is worth a reading. */
export const LOOSE_FROM_SHARE = 0.05;
/** What coils and pickups are usually read at, where nothing is known of one. */
export const RESISTANCE_GUESSES_OHM: readonly number[] = [3000, 6000, 10_000];
export const INDUCTANCE_GUESSES_H: readonly number[] = [2, 4, 8];

/** What the bench check card passes between parts that must be apart, and over a soldered joint, the probes' own resistance taken off. */
export const APART_FROM_OHM = 20e6;
export const JOINT_AT_MOST_OHM = 1;

// Temperatures.

/** How well a stated temperature, and an assumed one, is the coil's own. */
export const STATED_TEMPERATURE_SD_K = 0.5;
export const ROOM_TEMPERATURE_SD_K = 2;
/** From a cold bench to a pickup fresh from the wax. */
export const COLDEST_BENCH_C = 5;
export const HOTTEST_COIL_C = 65;
/** From a cold room to a case in the sun, around 20 degC. */
export const CASE_COLDER_K = 15;
export const CASE_HOTTER_K = 25;

// Coils and bobbins.

/** Stand for a coil of which nothing is known, where only its path or its sense is asked for: any value serves. */
export const NOMINAL_OHM = 4000;
export const NOMINAL_HENRY = 2;
/** Distance between the centre lines of two coils side by side, where it is not stated. */
export const DEFAULT_COILS_APART_M = 0.018;
/** What the distance of two coils leaves open of their coupling: as stated, as assumed, and of a stack, flange upon flange. */
export const COUPLING_RELATIVE_SD = { stated: 0.05, assumed: 0.15, stacked: 0.05 } as const;
/** What one of the coils of a closed pickup may have of its resistance more or less than its part, relative. */
export const UNSEEN_SHARE_RELATIVE_SD = 0.1;
/** Thickness of a bobbin's flange. */
export const FLANGE_M = 0.0015;
/** What a wound coil's outline differs from the stated core by: tension rounds the flanks and lead-ins cross. */
export const OUTLINE_RELATIVE_SD = 0.005;
/** What that leaves open of the inductance of a coil of known turns and build. */
export const OUTLINE_INDUCTANCE_RELATIVE_SD = 0.01;
/** A packing that a winder states is known about this well. */
export const STATED_PACKING_SD = 0.02;
/** Recoil permeability of ferrite and rare-earth magnets, 1.05 to 1.1. */
export const SINTERED_SPREAD_FACTOR = 1.03;
/**
 * What lies beneath the poles and is left out of the integrals: a bar magnet (recoil permeability 2 to 5), its keeper, a steel
 * baseplate. It closes the poles' circuit, so it can only add: between nothing and a quarter.
 */
export const BENEATH_POLES = { least: 1, most: 1.25 } as const;
/** Sheet of covers and baseplates where nobody states it, and the limits of its thickness, relative, as assumed and as stated. */
export const SHEET_M = 0.5e-3;
export const SHEET_RELATIVE_LIMIT = { assumed: 0.2, stated: 0.05 } as const;
/**
 * Slits, holes, rounded ends, a cover soldered to its plate, poles that magnetise each other: what round coils do not tell, as an error
 * of time constants; and parts by table, known to half of what they take. Judgement.
 */
export const METAL_SHAPE_RELATIVE_SD = 0.1;
export const METAL_TABLE_RELATIVE_SD = 0.5;
/** What a blade adds, by the row of rods that stands for it. Judgement. */
export const BLADE_RELATIVE_SD = 0.1;
/** Between a bobbin's edge and the wall of its cover. */
export const COVER_CLEARANCE_M = 0.5e-3;
/** A baseplate below the winding's flange, where a bar magnet and its keeper lie between; and below the ends of the poles. */
export const PLATE_UNDER_BAR_M = 3.5e-3;
export const PLATE_UNDER_POLES_M = 0.5e-3;
/** Height of the strings over the pole tops, where nothing else is said. */
export const STRING_HEIGHT_M = 0.0025;
/** What the coils of a stack differ in moves the peak of a bare one by, dB: as where they are drawn (test/estimates/drawn-pickups.test.ts). */
export const BARE_STACK_PEAK_SD_DB = 1.1;
/** How strongly a string excites the lower coil of a stack against one right under it: a tenth to a fifth. */
export const LOWER_COIL_STRING_SHARE = 0.15;

/** A pickup's own cable, with one standard deviation, relative; and of a capacitance per length from a data sheet. */
export const OWN_CABLE_M = 0.33;
export const OWN_CABLE_RELATIVE_SD = 0.2;
export const STATED_CABLE_RELATIVE_SD = 0.1;
/** Tape between the innermost turns and the magnets of a coil that has no bobbin's wall there. */
export const TAPE_OVER_MAGNETS_M = { least: 0.1e-3, most: 0.3e-3 } as const;

// Winding.

/** Speed of a hand-guided winder where none is stated. */
export const WINDING_SPEED_RPM = 800;
/** Turns that a search for a target starts from where none are planned; any count of this order serves. */
export const USUAL_TURNS = 5000;
/** A length of wire pulled off a coil and laid along a rule, relative. */
export const PEELED_LENGTH_RELATIVE_SD = 0.01;
/** Wire to have on the spool for a coil, over what lies in it: lead-in, lead-out, a break near the core. */
export const WIRE_ALLOWANCE = 1.1;
/** Turn-areas nearer than this count as equal. */
export const EQUAL_AREAS_WITHIN = 0.01;

// The wax bath. Melting and softening points differ from maker to maker: the safety data sheet of the wax in hand comes first.

export interface WaxFacts {
  /** Melting range over the grades sold, degC. */
  readonly meltsC: readonly [low: number, high: number];
  /** Above this a bath gains nothing and a pickup may suffer, degC. */
  readonly ceilingC: number;
  /** Lowest closed-cup flash point reported, degC. */
  readonly flashPointC: number;
  readonly source: string;
}

export const WAXES: Readonly<Record<string, WaxFacts>> = {
  paraffin: {
    meltsC: [46, 68],
    ceilingC: 65,
    flashPointC: 140,
    source:
      'melting range by grade recalled; ceiling common practice, no published source; flash point 199\u202F°C without additives, 140\u202F°C stated by some makers, read on a page of a candle supplier',
  },
  beeswax: {
    meltsC: [61, 66],
    ceilingC: 65,
    flashPointC: 204,
    source:
      'melting range of the pharmacopoeias recalled; ceiling common practice; flash point 204\u202F°C read on a page of a supplier',
  },
  microcrystalline: {
    meltsC: [60, 93],
    ceilingC: 95,
    flashPointC: 200,
    source: 'melting range by grade and flash point recalled; ceiling common practice, no published source',
  },
  carnauba: {
    meltsC: [82, 86],
    ceilingC: 95,
    flashPointC: 270,
    source: 'melting range and flash point recalled; ceiling common practice, no published source',
  },
};

/** Of paraffin with a fifth to a third of beeswax, degC; and where the lowest grade of paraffin begins to melt. */
export const USUAL_CEILING_C = 65;
export const USUAL_MELTING_C = 46;
/** A thermostat swings by some kelvin. */
export const BATH_MARGIN_K = 3;
/** A bath stays this far below the flash point, kelvin. */
export const FLASH_MARGIN_K = 30;
/** From here on a bath's vapour matters, not only the pickup, degC. */
export const VAPOUR_FROM_C = 100;

/** From where a bobbin's plastic may give way, degC. Fibre does not soften in a wax bath. */
export const SOFTENS_FROM_C: Readonly<Record<Plastic, number | undefined>> = {
  // Deflection under 0.46 MPa between 68 and 100 degC by grade: read in a materials table.
  abs: 68,
  // No table could be read; roughly 45 to 95 degC by plasticiser, recalled. The limit is a cautious setting inside that range.
  butyrate: 58,
  fibre: undefined,
};

// Instruments.

/** What a pickup plays into where nothing is said of its instrument. */
export const DEFAULT_POTS_OHM = 500e3;
export const DEFAULT_TONE_F = 22e-9;
/** From the poles to the strings with the last fret held, millimetres; sources disagree. */
export const HEIGHT_MM = { 'two coils': [1.2, 1.6], 'one coil': [2, 2.4] } as const;
/** What a target may be missed by where it states no ± itself: relative, in dB, and of the turns of two coils, relative. */
export const TARGET_TOLERANCE = 0.05;
export const TARGET_TOLERANCE_DB = 1;
export const TARGET_TOLERANCE_MISMATCH = 0.03;
/** From these odds on a target counts as reached, from the rest to one as missed. */
export const TARGET_DECIDED_FROM = 0.95;
/** Cable and input of an amplifier where an instrument does not state them. */
export const DEFAULT_CABLE_F = 450e-12;
export const DEFAULT_INPUT_OHM = 1e6;
/** A cable's capacitance, as stated and as assumed. */
export const CABLE_RELATIVE_SD = { stated: 0.05, assumed: 0.25 } as const;
/** Tracks of pots are sold within this. */
export const POT_TOLERANCE = 0.2;
/** Capacitors of tone controls and bleeds. */
export const CAPACITOR_TOLERANCE = 0.1;
/** Pots of 250 kΩ behind 6 to 8 kΩ and 500 kΩ behind 8 to 17 kΩ are usual, a factor of 30 to 60; less than this is too little. */
export const POT_LEAST_TIMES = 20;
/** Length of the strings where an instrument does not state it. */
export const USUAL_SCALE_M = 0.64;
/** An outer pole this far off its string is still heard evenly. */
export const POLE_OFF_AT_MOST_M = 1.5e-3;
/** A step of level that players complain of. */
export const JUMP_DB = 8;

// Phase and hum.

/**
 * Sides nearer to each other than this count as alike: turns that come from a resistance are known to some 5 % (the wire's resistance
 * per length alone spreads by that much), so a smaller difference does not say which side is the lesser.
 */
export const ALIKE_RELATIVE = 0.05;
/** Nearer to the strongest coil's own hum than this, the coils of a pickup do not cancel at all. */
export const HARDLY_LESS_DB = 1;
/** A position with less hum than this is left as it was chosen: half of one coil's. */
export const HUMS_ABOVE_DB = -6;
/** What another choice of coils must take off a position's hum to be proposed: half of it. */
export const WORTH_CHANGING_DB = 6;
/** What slug or screw steel leaves of a real null; hum below it is gone. Derived, see the page of hum/partly-cancelled. */
export const STEEL_RESIDUE_DB = -30;

// Sweeps.

/** Tolerance of the resistor in a sweep's way, one relative deviation, where no ± is stated: 1 % parts. */
export const SWEEP_RESISTOR_RELATIVE_SD = 0.005;
/** Of a capacitor put across. */
export const SWEEP_CAPACITOR_RELATIVE_SD = 0.01;
/** The input of a recorder with its lead where nothing is stated, and the deviations of what is stated without one. */
export const RECORDER_OHM = 1e6;
export const RECORDER_OHM_RELATIVE_SD = 0.05;
export const STATED_INPUT_RELATIVE_SD = 0.025;
export const RECORDER_FARAD = 200e-12;
export const RECORDER_FARAD_SD = 80e-12;
export const STATED_INPUT_CAPACITANCE_RELATIVE_SD = 0.2;
/** Balance of two channels of one interface, relative: 0.03 dB. */
export const CHANNEL_BALANCE_SD = 0.03 * (Math.LN10 / 20);
/** Scale of an impedance meter whose accuracy is not stated. */
export const IMPEDANCE_METER_RELATIVE_SD = 0.003;
/** How well the strength of eddy currents is computed. */
export const LOSS_SHARE_RELATIVE_SD = 0.15;
/** Sheets of covers and baseplates that are tried where a sweep shows other metal than stated; common practice, no published source. */
export const TRIED_SHEETS_M = [0.3e-3, 0.5e-3, 0.8e-3] as const;
/** A number of a sweep with a larger relative deviation is not used. */
export const SWEEP_TOO_WEAK = 0.25;
/** Of 5,000 turns: what coils of unknown turns are held against. */
export const USUAL_COIL_HENRY = 2.2;
/** Of e.m.f. by the root of the inductance, between coils on unlike bobbins and poles. */
export const LOUDNESS_BY_INDUCTANCE_RELATIVE_SD = 0.3;
/** Of a coil of which nothing but its inductance is known. */
export const USUAL_COIL_FARAD = { value: 100e-12, sd: 35e-12 } as const;
