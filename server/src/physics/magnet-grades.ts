/** Exact conversions of the units magnet tables use. */
export const TESLA_PER_GAUSS = 1e-4;
export const A_PER_M_PER_OERSTED = 1000 / (4 * Math.PI);
export const J_PER_M3_PER_MGOE = 1e6 * TESLA_PER_GAUSS * A_PER_M_PER_OERSTED;

/** Names of the magnet materials a winder meets, as the standard numbers them. */
export type MagnetGradeName =
  | 'alnico-2'
  | 'alnico-3'
  | 'alnico-4'
  | 'alnico-5'
  | 'alnico-8'
  | 'ceramic-5'
  | 'ceramic-8'
  | 'neodymium';

/** Nominal properties of a magnet material at room temperature. */
export interface MagnetMaterial {
  remanenceT: number;
  /** Of the flux density: where B is zero. */
  coercivityAPerM: number;
  /** Of the polarisation: where J is zero. Left out where unknown; for alnico a few per cent above the other. */
  intrinsicCoercivityAPerM?: number;
  energyProductJPerM3: number;
  /** Slope of minor loops, relative to μ0. */
  recoilRelativePermeability: number;
}

export interface MagnetGrade extends MagnetMaterial {
  /** One relative standard deviation of remanence and coercivity among pieces sold under the name. */
  relativeSpread: number;
  /** Cast magnets lose magnetisation when handled: see {@link HANDLING_NOTE}. */
  cast: boolean;
  source: string;
}

/**
 * Nominal grades. Alnico and ceramic: MMPA Standard No. 0100-00 (recalled; its tables could not be opened), ceramics also read as
 * minimum values in makers' tables. Makers differ by 5 to 15 %, most on alnico 4, where tables range from 0.56 to 0.9 T: its spread covers both.
 */
export const MAGNET_GRADES: Readonly<Record<MagnetGradeName, MagnetGrade>> = {
  'alnico-2': alnico(7500, 560, 580, 1.7, 6.4, 0.06),
  'alnico-3': alnico(7000, 480, 500, 1.35, 6.5, 0.08),
  'alnico-4': alnico(5600, 720, 750, 1.35, 4.1, 0.35),
  'alnico-5': alnico(12800, 640, 640, 5.5, 4, 0.05),
  'alnico-8': alnico(8200, 1650, 1860, 5.3, 2, 0.06),
  'ceramic-5': ceramic(3800, 2400, 2500, 3.4),
  'ceramic-8': ceramic(3850, 2950, 3050, 3.5),
  neodymium: {
    remanenceT: 1.2,
    coercivityAPerM: 890e3,
    intrinsicCoercivityAPerM: 955e3,
    energyProductJPerM3: 275e3,
    recoilRelativePermeability: 1.05,
    relativeSpread: 0.06,
    cast: false,
    source: "sintered NdFeB of about 35 MGOe, makers' tables (recalled); the name alone spans 1.1 to 1.4 T",
  },
};

/** What a hover on a cast magnet should add. */
export const HANDLING_NOTE =
  'A cast alnico magnet that was taken off its poles, dropped, or brought near another magnet works on a lower minor loop until it is charged again in place.';

function alnico(
  remanenceG: number,
  coercivityOe: number,
  intrinsicOe: number,
  energyMGOe: number,
  recoilRelativePermeability: number,
  relativeSpread: number,
): MagnetGrade {
  return {
    ...material(remanenceG, coercivityOe, intrinsicOe, energyMGOe, recoilRelativePermeability),
    relativeSpread,
    cast: true,
    source: 'MMPA Standard No. 0100-00, cast alnico, nominal (recalled)',
  };
}

function ceramic(remanenceG: number, coercivityOe: number, intrinsicOe: number, energyMGOe: number): MagnetGrade {
  return {
    ...material(remanenceG, coercivityOe, intrinsicOe, energyMGOe, 1.07),
    relativeSpread: 0.03,
    cast: false,
    source: "MMPA Standard No. 0100-00 (recalled), the same numbers read as minimum values in makers' tables",
  };
}

function material(
  remanenceG: number,
  coercivityOe: number,
  intrinsicOe: number,
  energyMGOe: number,
  recoilRelativePermeability: number,
): MagnetMaterial {
  return {
    remanenceT: remanenceG * TESLA_PER_GAUSS,
    coercivityAPerM: coercivityOe * A_PER_M_PER_OERSTED,
    intrinsicCoercivityAPerM: intrinsicOe * A_PER_M_PER_OERSTED,
    energyProductJPerM3: energyMGOe * J_PER_M3_PER_MGOE,
    recoilRelativePermeability,
  };
}
