/** Enamels a winder buys, by the polymer's trade name. */
export type EnamelName = 'plain' | 'polyurethane' | 'polyester-imide' | 'polyvinyl-acetal';

/** What an enamel stands and how it comes off. */
export interface Enamel {
  /** Thermal class, degC: the temperature the film bears for 20 000 h. The lowest class sold under the name. */
  thermalClassC: number;
  /** Bath or iron temperature, degC, at which the film dissolves into the solder; `null` where it must be stripped first. */
  solderThroughC: { minimum: number; maximum: number } | null;
  source: string;
}

/**
 * Thermal class and solderability. Polyurethane and polyester-imide are tested for solderability at 375 to 390 degC and at
 * 470 degC in their IEC 60317 parts; plain enamel and polyvinyl acetal do not solder through.
 */
export const ENAMELS: Readonly<Record<EnamelName, Enamel>> = {
  plain: {
    thermalClassC: 105,
    solderThroughC: null,
    source: 'oleoresinous (plain) enamel, class 105, NEMA MW 1 (recalled)',
  },
  polyurethane: {
    thermalClassC: 130,
    solderThroughC: { minimum: 370, maximum: 390 },
    source: 'IEC 60317-4, class 130 (recalled); IEC 60317-20 and -51 list classes 155 and 180',
  },
  'polyester-imide': {
    thermalClassC: 180,
    solderThroughC: { minimum: 470, maximum: 500 },
    source: 'IEC 60317-23, solderable, class 180 (recalled); not every polyester-imide is solderable',
  },
  'polyvinyl-acetal': {
    thermalClassC: 105,
    solderThroughC: null,
    source: 'IEC 60317-1, class 105 (recalled); IEC 60317-12 lists class 120',
  },
};
