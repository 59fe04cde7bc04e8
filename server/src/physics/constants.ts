/** Vacuum permeability, H/m. The pre-2019 exact value; CODATA 2018 differs by 5e-10, far below anything here. */
export const MU0 = 4e-7 * Math.PI;

/** Vacuum permittivity, F/m (CODATA 2018, recalled). */
export const EPSILON0 = 8.8541878128e-12;

/**
 * Standard annealed copper, IEC 60028 (1925): 1/58 ohm mm²/m at 20 degC, 0.00393 per kelvin at constant mass,
 * 8.89 g/cm³. Drawn magnet wire differs by less than 1 % (purity, cold work).
 */
export const COPPER_RESISTIVITY_OHM_M = 1 / 58e6;
export const COPPER_TEMPERATURE_COEFFICIENT_PER_K = 0.00393;
export const COPPER_DENSITY_KG_PER_M3 = 8890;

/** Reference temperature of every resistance in this folder unless a name says otherwise, degC. */
export const REFERENCE_TEMPERATURE_C = 20;

/**
 * Mean density of wire enamel, kg/m³. Polyurethane, polyester-imide and polyvinyl acetal lie between 1200 and 1400
 * (handbook values of the polymers, recalled); the enamel is a few per cent of the mass, so the spread matters little.
 */
export const ENAMEL_DENSITY_KG_PER_M3 = 1300;

/** A conducting or permeable part near a coil, at 20 degC. */
export interface Metal {
  resistivityOhmM: number;
  /** How far alloys sold under the name lie from this value at most, relative. */
  resistivityRelativeSpread: number;
  /** Initial relative permeability, the one a string's small signal sees. */
  relativePermeability: number;
  /** Factor either way within which the permeability of a real piece lies; 1 for a metal that is not magnetic. */
  permeabilitySpreadFactor: number;
  source: string;
}

/** Names of the metals of covers, baseplates and poles. */
export type MetalName =
  | 'copper'
  | 'brass'
  | 'nickel-silver'
  | 'steel'
  | 'stainless-steel'
  | 'aluminium'
  | 'alnico'
  | 'ferrite';

/**
 * Handbook resistivity and permeability by metal. Steel means cold-drawn low-carbon bar: its permeability is known only
 * to a factor of three, which is stated and carried, and falls with frequency above a few kilohertz.
 */
export const METALS: Readonly<Record<MetalName, Metal>> = {
  copper: {
    resistivityOhmM: COPPER_RESISTIVITY_OHM_M,
    resistivityRelativeSpread: 0.02,
    relativePermeability: 1,
    permeabilitySpreadFactor: 1,
    source: 'IEC 60028 (1925)',
  },
  brass: {
    resistivityOhmM: 6.16e-8,
    resistivityRelativeSpread: 0.1,
    relativePermeability: 1,
    permeabilitySpreadFactor: 1,
    source: 'C26000 cartridge brass, 28 % IACS, mill data sheet; leaded 62/36 brass 6.6e-8',
  },
  'nickel-silver': {
    resistivityOhmM: 2.87e-7,
    resistivityRelativeSpread: 0.33,
    relativePermeability: 1,
    permeabilitySpreadFactor: 1,
    source: 'C75200, 6 % IACS, handbook value (recalled); the family spans 5.5 to 9 % IACS (C77000, C74500)',
  },
  steel: {
    resistivityOhmM: 1.59e-7,
    resistivityRelativeSpread: 0.15,
    relativePermeability: 200,
    permeabilitySpreadFactor: 3,
    source:
      'AISI 1018, handbook resistivity (recalled); permeability of cold-drawn bar at low field, order of magnitude',
  },
  'stainless-steel': {
    resistivityOhmM: 7.2e-7,
    resistivityRelativeSpread: 0.05,
    relativePermeability: 1.02,
    permeabilitySpreadFactor: 1.02,
    source: 'AISI 304, annealed, handbook value (recalled)',
  },
  aluminium: {
    resistivityOhmM: 2.82e-8,
    resistivityRelativeSpread: 0.15,
    relativePermeability: 1,
    permeabilitySpreadFactor: 1,
    source: 'EC grade, 61 % IACS (recalled); structural alloys up to 4e-8',
  },
  alnico: {
    resistivityOhmM: 4.7e-7,
    resistivityRelativeSpread: 0.1,
    relativePermeability: 3.6,
    permeabilitySpreadFactor: 1.4,
    source: "cast alnico 5 and 8, magnet maker's table: 47 microohm cm, recoil permeability 3.6",
  },
  ferrite: {
    resistivityOhmM: 1e4,
    resistivityRelativeSpread: 1,
    relativePermeability: 1.07,
    permeabilitySpreadFactor: 1.03,
    source: 'hard ferrite, an insulator at audio frequency (recalled); recoil permeability 1.05 to 1.1',
  },
};
