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
  'alnico-2': alnico({ brG: 7500, hcOe: 560, hciOe: 580, bhMGOe: 1.7, recoil: 6.4, spread: 0.06 }),
  'alnico-3': alnico({ brG: 7000, hcOe: 480, hciOe: 500, bhMGOe: 1.35, recoil: 6.5, spread: 0.08 }),
  'alnico-4': alnico({ brG: 5600, hcOe: 720, hciOe: 750, bhMGOe: 1.35, recoil: 4.1, spread: 0.35 }),
  'alnico-5': alnico({ brG: 12800, hcOe: 640, hciOe: 640, bhMGOe: 5.5, recoil: 4, spread: 0.05 }),
  'alnico-8': alnico({ brG: 8200, hcOe: 1650, hciOe: 1860, bhMGOe: 5.3, recoil: 2, spread: 0.06 }),
  'ceramic-5': ceramic({ brG: 3800, hcOe: 2400, hciOe: 2500, bhMGOe: 3.4 }),
  'ceramic-8': ceramic({ brG: 3850, hcOe: 2950, hciOe: 3050, bhMGOe: 3.5 }),
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

/** In the standard's symbols and units: remanence, gauss; coercivity of B and of J, oersted; greatest B·H, MGOe. */
interface Tabulated extends Record<'brG' | 'hcOe' | 'hciOe' | 'bhMGOe', number> {
  readonly recoil: number;
  readonly spread: number;
}

function alnico(tabulated: Tabulated): MagnetGrade {
  const source = 'MMPA Standard No. 0100-00, cast alnico, nominal (recalled)';
  return { ...grade(tabulated), cast: true, source };
}

function ceramic(tabulated: Omit<Tabulated, 'recoil' | 'spread'>): MagnetGrade {
  const source = "MMPA Standard No. 0100-00 (recalled), the same numbers read as minimum values in makers' tables";
  return { ...grade({ ...tabulated, recoil: 1.07, spread: 0.03 }), cast: false, source };
}

function grade({ brG, hcOe, hciOe, bhMGOe, recoil, spread }: Tabulated) {
  return {
    remanenceT: brG * TESLA_PER_GAUSS,
    coercivityAPerM: hcOe * A_PER_M_PER_OERSTED,
    intrinsicCoercivityAPerM: hciOe * A_PER_M_PER_OERSTED,
    energyProductJPerM3: bhMGOe * J_PER_M3_PER_MGOE,
    recoilRelativePermeability: recoil,
    relativeSpread: spread,
  };
}
