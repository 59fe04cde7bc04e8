import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import {
  CABLE_F_PER_M,
  FILL_PERMITTIVITY,
  OUTER_FIELD_F_PER_M,
  rowToFoilFPerM2,
  START_TO_RODS_RELATIVE_SD,
  startToRodsF,
  USUAL_CLEARANCE,
  USUAL_TURNS_PER_PASS,
  windingCapacitanceF,
  wireToWireFPerM,
} from '../../server/src/physics/capacitance.ts';

/** test/physics/reference/capacitance.json: fields, drawn windings and whole pickups, made outside this project. */
interface References {
  readonly pairs: readonly {
    readonly id: string;
    readonly bare_um: number;
    readonly overall_um: number;
    readonly gap_um: number;
    readonly er_enamel: number;
    readonly er_fill: number;
    readonly hexagonal_pF_per_m: number;
  }[];
  readonly windings: readonly DrawnWinding[];
  readonly surroundings: readonly (
    | {
        readonly id: string;
        readonly kind: string;
        readonly wall_mm: number;
        readonly er_wall: number;
        readonly er_between: number;
        readonly height_mm: number;
        readonly C_pF: number;
      }
    | {
        readonly id: string;
        readonly kind: string;
        readonly tape_um: number;
        readonly er_tape: number;
        readonly per_cm2_pF: number;
      }
    | { readonly id: string; readonly kind: string; readonly C_pF_per_m: number }
  )[];
}

interface DrawnWinding {
  readonly id: string;
  readonly kind: 'layers' | 'scatter';
  readonly bare_um: number;
  readonly overall_um: number;
  readonly turns: number;
  readonly height_mm: number;
  readonly turns_per_pass: number;
  readonly jitter_dia: number;
  readonly loose: number;
  readonly er_enamel: number;
  readonly er_fill: number;
  readonly mean_turn_m: number;
  readonly C_pF: number;
}

const references = JSON.parse(
  readFileSync(new URL('reference/capacitance.json', import.meta.url), 'utf8'),
) as References;

const within = (ours: number, reference: number, relative: number, what: string) =>
  assert.ok(Math.abs(ours / reference - 1) <= relative, `${what}: ${ours.toPrecision(4)} against ${reference}`);

describe('capacitance from wire to wire', () => {
  it('agrees with the field of a hexagonal array within 2 %, and 4.4 % where clearances are beyond those of windings', () => {
    for (const pair of references.pairs)
      within(
        1e12 *
          wireToWireFPerM({
            bareDiameterM: pair.bare_um * 1e-6,
            overallDiameterM: pair.overall_um * 1e-6,
            clearance: pair.gap_um / pair.overall_um,
            fill: pair.er_fill,
            enamel: pair.er_enamel,
          }),
        pair.hexagonal_pF_per_m,
        pair.gap_um / pair.overall_um < 0.2 ? 0.02 : 0.044,
        pair.id,
      );
  });
});

/** The drawn windings stand in nothing: the field about them is left out. */
const ours = (drawn: DrawnWinding): number =>
  -1e12 * OUTER_FIELD_F_PER_M * drawn.mean_turn_m +
  1e12 *
    windingCapacitanceF({
      meanTurnM: drawn.mean_turn_m,
      heightM: drawn.height_mm * 1e-3,
      turns: drawn.turns,
      bareDiameterM: drawn.bare_um * 1e-6,
      overallDiameterM: drawn.overall_um * 1e-6,
      laying: drawn.kind,
      turnsPerPass: drawn.turns_per_pass,
      guide: drawn.jitter_dia >= 1 ? 'hand' : 'machine',
      clearance: drawn.loose,
      fill: drawn.er_fill,
      enamel: drawn.er_enamel,
    });

describe('capacitance of a winding', () => {
  // The closed form's own error: 20 % with the clearance known, 25 % where a hand's jitter is.
  for (const drawn of references.windings)
    it(`agrees with ${drawn.id}, drawn turn by turn`, () => {
      within(ours(drawn), drawn.C_pF, drawn.jitter_dia >= 1 ? 0.25 : 0.2, drawn.id);
    });

  it('is 49 pF for 7,600 turns of 42 AWG on 11 mm and 73 pF in wax', () => {
    const coil = (fill: number) =>
      1e12 *
      windingCapacitanceF({
        meanTurnM: 0.145,
        heightM: 11e-3,
        turns: 7600,
        bareDiameterM: 63.5e-6,
        overallDiameterM: 71.1e-6,
        laying: 'scatter',
        turnsPerPass: USUAL_TURNS_PER_PASS,
        guide: 'unknown',
        clearance: USUAL_CLEARANCE,
        fill,
      });
    within(coil(FILL_PERMITTIVITY.air), 49.1, 0.1, 'unpotted');
    within(coil(FILL_PERMITTIVITY.wax), 73, 0.2, 'in wax');
    const raised = coil(FILL_PERMITTIVITY.wax) / coil(FILL_PERMITTIVITY.air);
    assert.ok(raised > 1.3 && raised < 1.7, `wax raises it by ${raised}`);
  });
});

describe('capacitance to what stands around a winding', () => {
  it('agrees with finite differences for the innermost turns about six rods', () => {
    for (const each of references.surroundings) {
      if (!('wall_mm' in each)) continue;
      const farad = startToRodsF({
        count: 6,
        diameterM: 4.8e-3,
        heightM: each.height_mm * 1e-3,
        wallM: each.wall_mm * 1e-3,
        wallPermittivity: each.er_wall,
        betweenPermittivity: each.er_between,
        overallDiameterM: 71.1e-6,
      });
      within(1e12 * farad, each.C_pF, 0.1, each.id);
    }
    assert.ok(1 + START_TO_RODS_RELATIVE_SD * 1.28 < 1.35);
  });

  it('takes a row behind tape as a plate where the tape is thicker than the wire', () => {
    for (const each of references.surroundings) {
      if (!('tape_um' in each) || each.tape_um < 71) continue;
      within(1e8 * rowToFoilFPerM2(each.tape_um * 1e-6, each.er_tape), each.per_cm2_pF, 0.1, each.id);
    }
  });

  it('holds the calculated cables between its limits', () => {
    const [four, pair] = ['four-conductor cable', 'twisted pair'].map((kind) => {
      const found = references.surroundings.find((each) => each.kind.startsWith(kind));
      return found && 'C_pF_per_m' in found ? found.C_pF_per_m : Number.NaN;
    });
    const holds = (kind: 'four-conductor' | 'pair', value = Number.NaN) =>
      assert.ok(value >= CABLE_F_PER_M[kind].least * 1e12 - 0.5 && value <= CABLE_F_PER_M[kind].most * 1e12 + 0.5);
    holds('four-conductor', four);
    holds('pair', pair);
  });
});
