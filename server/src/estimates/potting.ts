/**
 * The wax bath: masses of the mix, and what limits its temperature. Melting and softening points differ from maker to maker: the
 * safety data sheet of the wax in hand comes first.
 */
import { celsius } from '../model/bench.ts';
import type { Plastic } from '../model/bobbin.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Potting } from '../model/potting.ts';
import { ENAMELS } from '../physics/enamel.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { printCelsius } from '../quantities/print.ts';

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

/** A bath stays this far below the flash point, kelvin. Common practice, no published source. */
const FLASH_MARGIN_K = 30;

/** From where a bobbin's plastic may give way, degC, and how that is said. Fibre does not soften in a wax bath. */
export const PLASTICS: Readonly<
  Record<Plastic, { readonly softensFromC: number; readonly words: string } | undefined>
> = {
  // Deflection under 0.46 MPa between 68 and 100 degC by grade: read in a materials table. The trade's figure: 80 to 100 degC.
  abs: { softensFromC: 68, words: 'ABS bobbins deflect at 80 to 100\u202F°C, some grades earlier' },
  // No table could be read; roughly 45 to 95 degC by plasticiser, recalled. The limit is a cautious setting inside that range.
  butyrate: { softensFromC: 58, words: 'butyrate bobbins soften earlier than ABS, some below 60\u202F°C' },
  fibre: undefined,
};

export interface BathLimit {
  readonly what: 'mix' | 'plastic' | 'enamel' | 'flash point';
  readonly limitC: number;
  readonly words: string;
}

/** Everything that limits the bath of this pickup, the lowest limit first. */
export function bathLimits(pickup: Pickup): readonly BathLimit[] {
  const waxes = (pickup.potting?.wax?.value ?? []).flatMap(({ ingredient }) => WAXES[ingredient] ?? []);
  const ceilingC = Math.max(USUAL_CEILING_C, ...waxes.map((wax) => wax.ceilingC));
  const plastics = new Set(pickup.coils.flatMap(({ bobbin }) => bobbin?.plastic?.value ?? []));
  const enamels = new Set(pickup.coils.flatMap(({ wire }) => wire?.enamel?.value ?? []));
  const flashC = Math.min(...waxes.map(({ flashPointC }) => flashPointC));
  const limits: readonly BathLimit[] = [
    {
      what: 'mix',
      limitC: ceilingC,
      words: `the ceiling for ${waxes.length ? 'this mix' : 'the usual mix'} is ${printCelsius(ceilingC)}`,
    },
    ...[...plastics].flatMap((plastic): readonly BathLimit[] => {
      const facts = PLASTICS[plastic];
      return facts ? [{ what: 'plastic', limitC: facts.softensFromC, words: facts.words }] : [];
    }),
    ...[...enamels].map((enamel): BathLimit => {
      const { thermalClassC } = ENAMELS[enamel];
      return { what: 'enamel', limitC: thermalClassC, words: `${enamel} enamel is of class ${thermalClassC}` };
    }),
    ...(Number.isFinite(flashC)
      ? [
          {
            what: 'flash point' as const,
            limitC: flashC - FLASH_MARGIN_K,
            words: `the vapour of this wax may flash from ${printCelsius(flashC)}`,
          },
        ]
      : []),
  ];
  return [...limits].sort((a, b) => a.limitC - b.limitC);
}

/** Of paraffin with a fifth to a third of beeswax. Common practice, no published source. */
const USUAL_CEILING_C = 65;

/** Where the main wax of the mix, or a usual one, begins to melt in its lowest grade, degC. */
export function meltsFromC({ wax }: Potting): number {
  const main = [...(wax?.value ?? [])].sort((a, b) => b.share - a.share)[0];
  return WAXES[main?.ingredient ?? 'paraffin']?.meltsC[0] ?? USUAL_MELTING_C;
}

const USUAL_MELTING_C = 46;

/** A bath within every limit, in whole fives where there is room: 60 degC for the usual mix. */
export function suggestedBathC(pickup: Pickup): number {
  const lowest = bathLimits(pickup)[0]?.limitC ?? USUAL_CEILING_C;
  return Math.floor((lowest - BATH_MARGIN_K) / 5) * 5;
}

/** A thermostat swings by some kelvin. Common practice, no published source. */
const BATH_MARGIN_K = 3;

export interface WaxMass {
  readonly ingredient: string;
  readonly massKg: Estimate;
}

/** What to weigh out: the batch by its percentages. Empty where no batch is stated; shares are taken as they stand. */
export function waxMasses({ wax, batch }: Potting): readonly WaxMass[] {
  if (!wax || !batch) return [];
  return wax.value.map(({ ingredient, share }) => ({
    ingredient,
    massKg: estimateOf(share * batch.value.si, {
      sd: share * (batch.value.sd ?? 0),
      basis: 'computed',
      restsOn: [`batch ${batch.value.written}`],
    }),
  }));
}

/** Shares of the mix together, 0 to 1 where they are right. */
export const sharesTogether = ({ wax }: Potting): number =>
  (wax?.value ?? []).reduce((total, { share }) => total + share, 0);

export const bathC = ({ bath }: Potting): number | undefined => bath && celsius(bath.value);

/** Always shown with a bath. Common practice, not legal, medical or electrical certification. */
export const POTTING_CAUTIONS: readonly string[] = [
  'Read the safety data sheet of the wax; local rules come first.',
  'Double boiler, the inner vessel off its base; electric heat, no flame; never unattended; a second, independent thermometer.',
  'Lid, and a dry-powder or carbon-dioxide extinguisher at hand; never water on burning wax.',
  'Dry parts; ventilation; gloves and eye protection.',
  'A burn: cool running water for 20 minutes, leave the wax on, seek help.',
];
