/**
 * Pickups whose every uncertain fact is drawn: wire, packing, cores and sheets, which a spec can state, are written into its text;
 * metals, capacitances, couplings, pots and cable are drawn on the way from the spec to the response. Limits are even distributions,
 * factors either way even in their logarithm (JCGM 100:2008, 4.3.7), everything else is normal.
 */
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import type { CoilMagnetics, EddyTurn, PickupMagnetics } from '../../server/src/estimates/coil-magnetics.ts';
import { coilCentres, gradeOf, metalOf, ORIGIN, polesOf, sectionOf } from '../../server/src/estimates/coil-places.ts';
import { computedMagnetics } from '../../server/src/estimates/computed-magnetics.ts';
import { NO_SCALING, windingComponents } from '../../server/src/estimates/electric.ts';
import { magneticParts } from '../../server/src/estimates/magnetic-parts.ts';
import { groupsOf, poleRow, sheetsOver, stringOver } from '../../server/src/estimates/metal-places.ts';
import { ownCable } from '../../server/src/estimates/own-cable.ts';
import { segmentsOf } from '../../server/src/estimates/pickup-circuit.ts';
import type { Load } from '../../server/src/estimates/pickup-estimates.ts';
import type { QuickEstimates } from '../../server/src/estimates/quick.ts';
import { type Source, stringDrives } from '../../server/src/estimates/sources.ts';
import { wholePickup } from '../../server/src/estimates/whole-pickup.ts';
import type { Coil } from '../../server/src/model/coil.ts';
import {
  CABLE_F_PER_M,
  FILL_PERMITTIVITY,
  USUAL_CLEARANCE,
  USUAL_TURNS_PER_PASS,
  windingCapacitanceF,
} from '../../server/src/physics/capacitance.ts';
import { type Component, ground } from '../../server/src/physics/circuit/circuit.ts';
import { capacitor, resistor, wire } from '../../server/src/physics/circuit/components.ts';
import { resistanceBetween } from '../../server/src/physics/circuit/dc.ts';
import { networkOf } from '../../server/src/physics/circuit/network.ts';
import { responseFigures } from '../../server/src/physics/circuit/response.ts';
import { METALS } from '../../server/src/physics/constants.ts';
import { reducedMetal } from '../../server/src/physics/eddies/metal-by-coils.ts';
import { inductanceWithPoles } from '../../server/src/physics/pole-pieces.ts';
import { bareDiameterRelativeSd, overallDiameterRelativeSd, wireDiameters } from '../../server/src/physics/wire.ts';
import type { Estimate } from '../../server/src/quantities/estimate.ts';
import { uniform } from './chance.ts';
import { declaredIn } from './check-fixture.ts';

export interface Draws {
  normal(): number;
  /** From −1 to 1. */
  even(): number;
}

export function drawsOf(seed: number): Draws {
  const next = uniform(seed);
  return {
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    even: () => 2 * next() - 1,
  };
}

/** A pickup to be drawn. */
export interface Build {
  readonly turns: number;
  readonly pole: string;
  readonly coreMm: readonly [length: number, width: number];
  readonly heightMm: number;
  readonly coils: 'one' | 'side by side' | 'stacked';
  /** Turns of a tap that the output is taken from. */
  readonly tap?: number;
  /** Lines of cover and baseplate, `THICK` where the thickness of the sheet stands. */
  readonly metal?: string;
  readonly bar?: boolean;
  readonly potted?: boolean;
}

/** Gauge and builds by the names of their pickups, and what comes after them, as a spec; nothing drawn where `draws` is left out. */
export function specOf(
  { awg, builds, after = '' }: Pick<DrawnCase, 'awg' | 'builds' | 'after'>,
  draws?: Draws,
): string {
  const about = (value: number, relativeSd: number) => value * (1 + relativeSd * (draws?.normal() ?? 0));
  const size = draws ? drawnSize(awg, draws) : `gauge ${awg} AWG`;
  const pickups = Object.entries(builds).map(([name, build]) => {
    const count = build.coils === 'one' ? 1 : 2;
    const stretches = Array.from({ length: count }, () => about(1, 0.005));
    const bobbins = stretches.map((stretch, index) => {
      const core = build.coreMm.map((each) => (each * stretch).toFixed(5)).join(' x ');
      return `bobbin ${name}-${index + 1} {\n  core ${core} mm\n  window ${build.heightMm} x 8 mm\n  poles 6 spread 50 mm\n  pole ${build.pole}\n}\n`;
    });
    const coils = stretches.map((_, index) => {
      const second = index === 1;
      const place = second && build.coils === 'stacked' ? '    below c1\n' : '';
      const polarity = build.bar || place ? '' : `    polarity ${second ? 'south' : 'north'}-up\n`;
      const packing = draws ? `    packing ${about(0.64, 0.04 / 0.64).toFixed(5)}\n` : '';
      const tap = build.tap ? `    tap ${build.tap} turns tap\n` : '';
      const wound = place ? 'counterclockwise' : 'clockwise';
      return `  coil c${index + 1} {\n    bobbin ${name}-${index + 1}\n    wire w\n${packing}    turns ${build.turns}\n    wound ${wound}\n${polarity}${place}    start a${index + 1}\n    finish b${index + 1}\n${tap}  }\n`;
    });
    const thick = draws ? ` ${(0.5 * (1 + 0.2 * draws.even())).toFixed(5)} mm` : '';
    const hookup = {
      one: build.tap ? 'hot tap\n    free b1' : 'hot b1',
      'side by side': 'hot a2\n    link b1 b2',
      stacked: 'hot b2\n    link b1 a2',
    }[build.coils];
    const rest = `${build.bar ? '  magnet bar north toward c1\n' : ''}  hookup {\n    ${hookup}\n    ground a1\n  }\n${build.potted ? '  potting {\n  }\n' : ''}`;
    return `${bobbins.join('')}pickup ${name} {\n${(build.metal ?? '').replaceAll(' THICK', thick)}${coils.join('')}${rest}}\n`;
  });
  return `wire w {\n  ${size}\n}\nmagnet bar {\n  material alnico-5\n}\n${pickups.join('')}${after}`;
}

/** Both diameters by themselves; a film of less than half is not sold (42 AWG: at least 0.2 of 0.3 mil, recalled). */
function drawnSize(awg: number, draws: Draws): string {
  const nominal = wireDiameters({ awg }, 'single');
  const mm = (metres: number) => `${(metres * 1e3).toFixed(7)} mm`;
  for (;;) {
    const bareM = nominal.bareM * (1 + bareDiameterRelativeSd(nominal) * draws.normal());
    const overallM = nominal.overallM * (1 + overallDiameterRelativeSd(nominal) * draws.normal());
    if (overallM - bareM > (nominal.overallM - nominal.bareM) / 2)
      return `diameter ${mm(bareM)}\n  overall ${mm(overallM)}`;
  }
}

export interface DrawnCase {
  readonly awg: number;
  /** By the names of their pickups; several lie side by side across the jack. */
  readonly builds: Readonly<Record<string, Build>>;
  readonly loads: readonly Load[];
  /** An instrument, whose cable is not stated and which is read at the jack. */
  readonly after?: string;
}

export interface DrawnFigures {
  readonly ohm: number;
  /** Of the first pickup by itself. */
  readonly henry: number;
  readonly farad: number;
  /** For each load; `null` without a peak. */
  readonly hz: readonly (number | null)[];
  readonly db: readonly (number | null)[];
}

/** One pickup of every kind drawn. */
export function drawnFigures(drawn: DrawnCase, draws: Draws): DrawnFigures {
  const { model, bench } = declaredIn(specOf(drawn, draws));
  const steel = metalDraws(draws);
  const each = model.pickups.map((pickup) => {
    const quick = quickOf(bench)(pickup);
    const { magnetics, leadF } = drawnMagnetics(quick, draws, steel);
    return { quick, magnetics, leadF, whole: wholePickup(quick, magnetics, { ...ownCable(pickup), value: leadF }) };
  });
  const built = each.map(({ quick, magnetics, leadF }, index) => {
    const { netlist } = quick;
    const nodeOf = (net: number) =>
      net === netlist.ground || net === netlist.chassis ? ground : net === netlist.hot ? OUTPUT : `net ${index}.${net}`;
    const segments = segmentsOf(netlist, nodeOf, `${index}.`);
    const { components } = windingComponents(segments, quick, magnetics, NO_SCALING, ground);
    const cable = capacitor({ name: `lead ${index}`, from: OUTPUT, to: ground, farad: leadF });
    return { components: [...components, cable], sources: segments.map((segment): Source => ({ segment, quick })) };
  });
  const coils = built.flatMap(({ components }) => components);
  const loaded = drawn.loads.map((load) => {
    const components = [...coils, ...loadOf(load, draws, drawn.after !== undefined)];
    const network = networkOf({ components });
    const sources = stringDrives({ network, output: OUTPUT, segments: built.flatMap((part) => part.sources) });
    const figures = responseFigures(network, OUTPUT, sources);
    // A meter reads without an amplifier.
    const read = networkOf({ components: components.filter(({ name }) => name !== 'input') });
    const ohm = resistanceBetween(read, OUTPUT, ground) ?? Number.NaN;
    return { ohm, ...(typeof figures === 'string' ? { peakHz: null, peakDb: null } : figures) };
  });
  const [first] = each;
  return {
    ohm: (drawn.after === undefined ? first?.quick.resistance20COhm?.value : loaded[0]?.ohm) ?? Number.NaN,
    henry: first?.whole.inductanceH?.value ?? Number.NaN,
    farad: first?.whole.capacitanceF?.value ?? Number.NaN,
    hz: loaded.map(({ peakHz }) => peakHz),
    db: loaded.map(({ peakDb }) => peakDb),
  };
}

const OUTPUT = 'output';

/** Every pot and every capacitor by itself; the cable of an instrument that states none. */
function loadOf(load: Load, { even, normal }: Draws, inInstrument: boolean): readonly Component[] {
  const { volumeOhm, toneOhm, toneF, cableF, inputOhm } = load;
  const across = { from: OUTPUT, to: ground };
  return [
    wire({ name: 'output', from: OUTPUT, to: OUTPUT }),
    capacitor({ name: 'cable', ...across, farad: cableF * (inInstrument ? 1 + 0.25 * normal() : 1) }),
    ...(volumeOhm ? [resistor({ name: 'volume', ...across, ohm: volumeOhm * (1 + 0.2 * even()) })] : []),
    ...(toneOhm
      ? [
          resistor({ name: 'tone', from: OUTPUT, to: 'tone', ohm: toneOhm * (1 + 0.2 * even()) }),
          capacitor({ name: 'tone capacitor', from: 'tone', to: ground, farad: toneF * (1 + 0.1 * even()) }),
        ]
      : []),
    ...(inputOhm ? [resistor({ name: 'input', ...across, ohm: inputOhm })] : []),
  ];
}

/** Resistivity and permeability of one lot of metal, as factors. */
function metalDraws({
  even,
}: Draws): (material: string) => { readonly resistivity: number; readonly susceptibility: number } {
  const known = new Map<string, { readonly resistivity: number; readonly susceptibility: number }>();
  return (material) => {
    const before = known.get(material);
    if (before) return before;
    const metal = gradeOf(material) ? METALS.alnico : metalOf(material);
    const made = {
      resistivity: 1 + (metal?.resistivityRelativeSpread ?? 0) * even(),
      susceptibility: Math.exp(Math.log(metal?.permeabilitySpreadFactor ?? 1) * even()),
    };
    known.set(material, made);
    return made;
  };
}

function drawnMagnetics(
  quick: QuickEstimates,
  { normal, even }: Draws,
  metalDrawn: ReturnType<typeof metalDraws>,
): { readonly magnetics: PickupMagnetics; readonly leadF: number } {
  const { pickup } = quick.netlist;
  const base = computedMagnetics(quick);
  const pole = pickup.coils[0]?.bobbin?.pole?.value;
  const poleMetal = metalDrawn(pole && pole !== 'none' ? pole.material : '');
  const permeability = (of: number) => 1 + (of - 1) * poleMetal.susceptibility;
  const centres = coilCentres(pickup);
  const wound = pickup.coils.flatMap((coil) => {
    const winding = quick.windings.get(coil);
    const section = winding && sectionOf(coil, winding);
    return winding && section ? [{ coil, winding, placed: { section, centre: centres.get(coil) ?? ORIGIN } }] : [];
  });
  const rods = pickup.coils
    .flatMap((coil) => polesOf(coil, centres.get(coil) ?? ORIGIN))
    .map((rod) => ({ ...rod, relativePermeability: permeability(rod.relativePermeability) }));
  const matrix = inductanceWithPoles({ coils: wound.map(({ placed }) => placed), rods });
  const at = (of: 'air' | 'total', i: number, j: number) => matrix[of][i]?.[j] ?? 0;

  // The model of the poles by 1.2 %, what lies beneath them by nothing to a quarter, the distance of the coils.
  const poles = rods.length > 0 ? 1 + 0.012 * normal() : 1;
  const beneath = pickup.barMagnet ? 1.125 + 0.125 * even() : 1;
  const coupling = 1 + (pickup.coils.some(({ below }) => below) ? 0.05 : 0.15) * normal();
  // Clearances of 1 to 6 % as 10 and 90 % of a logarithmic normal distribution, and the closed form.
  const [clearance, form] = [USUAL_CLEARANCE * Math.exp((normal() * Math.log(6)) / 2 / 1.28), 1 + 0.12 * normal()];
  const drawn = (estimate: Estimate): Estimate => ({ ...estimate, value: estimate.value + estimate.sd * normal() });
  const coils = new Map(
    wound.flatMap(({ coil, winding, placed }, index): (readonly [Coil, CoilMagnetics])[] => {
      const own = base.coils.get(coil);
      const { meanTurnM, turns, bareDiameterM, overallDiameterM } = winding;
      if (!own || !meanTurnM || !turns || !bareDiameterM || !overallDiameterM) return [];
      const airH = (own.airH?.value ?? Number.NaN) * (1 + 0.01 * normal());
      const farad = windingCapacitanceF({
        meanTurnM: meanTurnM.value,
        heightM: placed.section.heightM,
        turns: turns.value,
        bareDiameterM: bareDiameterM.value,
        overallDiameterM: overallDiameterM.value,
        laying: 'scatter',
        turnsPerPass: USUAL_TURNS_PER_PASS,
        guide: 'unknown',
        clearance,
        fill: FILL_PERMITTIVITY[pickup.potting ? 'wax' : 'air'],
      });
      const { windingF, startF, finishF, facesF } = own.capacitances;
      const totalH = (at('total', index, index) / at('air', index, index)) * airH * poles * beneath;
      return [
        [
          coil,
          {
            ...own,
            totalH: { ...own.totalH, value: totalH },
            capacitances: {
              windingF: { ...windingF, value: farad * form },
              startF: drawn(startF),
              finishF: drawn(finishF),
              facesF: drawn(facesF),
            },
          },
        ],
      ];
    }),
  );

  // Slits and rounded ends by a tenth, a string's screening by 15 %, tabulated steel and bars by half of what they take.
  const [shape, screening, byTable] = [1 + 0.1 * normal(), 1 + 0.15 * normal(), Math.max(0.05, 1 + 0.5 * normal())];
  const tabulated = magneticParts(pickup);
  const turns = groupsOf(
    wound.map(({ coil, placed }, index) => ({
      coil,
      placed,
      addedH: at('total', index, index) - at('air', index, index),
    })),
  ).flatMap((group) => {
    const { loops, polesShare } = reducedMetal({
      coils: group.coils.map(({ placed }) => placed),
      sheets: sheetsOver(group, pickup).map((sheet) => ({
        ...sheet,
        resistivityOhmM: (sheet.resistivityOhmM * metalDrawn(pickup.metal[0]?.material ?? '').resistivity) / shape,
      })),
      sideBySide: group.sideBySide,
      poles: group.coils.flatMap(poleRow).map((row) => ({
        ...row,
        metal: {
          resistivityOhmM: row.metal.resistivityOhmM * poleMetal.resistivity,
          relativePermeability: permeability(row.metal.relativePermeability),
        },
      })),
      strings: group.coils.map(stringOver),
      heard: group.coils.map(({ coil }) => coil.below === undefined),
      magnetic: tabulated,
    });
    const slower = tabulated.length > 0 ? 1 + (byTable - 1) * (1 - polesShare) : 1;
    return loops.map(({ cornerHz, couplings, drives }): EddyTurn => {
      const beside = group.coils.map(
        ({ coil }, index) =>
          [coil, { coupling: couplings[index] ?? 0, drive: (drives[index] ?? 0) * screening }] as const,
      );
      return { cornerHz: cornerHz / slower, beside: new Map(beside) };
    });
  });

  const order = wound.map(({ coil }) => coil);
  const turnsOf = (coil: Coil) => quick.windings.get(coil)?.turns?.value ?? 0;
  const { least, most } = CABLE_F_PER_M.pair;
  const leadF = 0.33 * (1 + 0.2 * normal()) * ((least + most) / 2 + ((most - least) / 2) * even());
  return {
    leadF,
    magnetics: {
      ...base,
      coils,
      leadF,
      between: base.between.map(({ farad, ...pair }) => ({ ...pair, farad: drawn(farad) })),
      eddies: () => ({ ...base.eddies(), turns }),
      mutualSameSenseH: (a, b) =>
        at('total', order.indexOf(a), order.indexOf(b)) * turnsOf(a) * turnsOf(b) * beneath * coupling,
    },
  };
}
