import { type AxialLine, axialFieldPerAmpereTurn, seenFrom } from '../coil-field.ts';
import { add, type Complex, divide, multiply, subtract, zero } from '../complex.ts';
import { MU0 } from '../constants.ts';
import { DISC_RULE } from '../disc-rule.ts';
import { memoByValue } from '../memo.ts';
import type { PlacedCoil } from '../pole-pieces.ts';
import { quadraticForms } from './complex-system.ts';
import type { Conductors } from './conductors.ts';
import { rodSusceptibility, type SolidMetal } from './diffusion.ts';

/** Equal solid round poles of one coil, as one body. */
export interface PoleRow {
  /** The coil that they stand in, by its place in the list of coils. */
  readonly coil: number;
  /** `count`: how many poles one stands for, since fields on poles mirrored about the middle of the coil are alike. */
  readonly centres: readonly { readonly alongM: number; readonly acrossM: number; readonly count: number }[];
  readonly bottomM: number;
  readonly topM: number;
  readonly radiusM: number;
  readonly metal: SolidMetal;
  /** Inductance that they add to their coil at 0 Hz, H per turn squared: it sets how much they demagnetise themselves. */
  readonly addedH: number;
}

/** Where a string is heard: over a coil. */
export interface StringPoint {
  readonly alongM: number;
  readonly acrossM: number;
  readonly heightM: number;
}

export interface EddyArrangement {
  readonly coils: readonly PlacedCoil[];
  readonly airH: readonly (readonly number[])[];
  readonly conductors: readonly Conductors[];
  readonly poles: readonly PoleRow[];
  /** One for each coil. */
  readonly strings: readonly StringPoint[];
}

/** What the coils' terminals see of metal and what it leaves of a string's field. */
export interface EddyNetwork {
  /** Complex inductance of each pair of coils, H per product of turns, all coils counted the same way round: Z = jωL. */
  inductanceH(frequencyHz: number): readonly (readonly Complex[])[];
  /** Gradient of the axial field at the string over coil i, A/m² per ampere-turn in coil j: row i, column j. */
  gradient(frequencyHz: number): readonly (readonly Complex[])[];
}

/** Slices of a pole where fields on its axis are taken. */
const SLICES = 10;
const GRADIENT_STEP_M = 2e-4;

/**
 * Coils, closed paths in sheets and poles, all acting on each other. With R and L of the paths, M their couplings with the coils and
 * u with the poles, the currents per ampere-turn in a coil are (R + jωL) I + jω u q = −jω M; a pole is a body of one degree of
 * freedom, q (1/χ(ω) + N) = u·I + u of the coil, χ by the diffusion of flux into a round rod, N from what it adds at 0 Hz. The
 * field of a path acts on a pole by its mean along the axis with the weight of the coil's own field times 1 − ξ², ξ = ±1 at the ends.
 *
 * Against finite elements, round coils, at 1 to 10 kHz: sheets alone L 0.3 % of that at 0 Hz, added resistance 1.2 %; a pole by itself or
 * with sheets L 0.7 %, through the hole of a cover 1.2 %, added resistance 4.3 %; gradients 0.01 with sheets, 0.035 with a steel
 * pole, 0.042 with alnico under brass (0.052 at 20 kHz).
 * Linear: no saturation.
 */
export function eddyNetwork(arrangement: EddyArrangement): EddyNetwork {
  const prepared = prepare(arrangement);
  const solved = memoByValue((frequencyHz: number) => solve(prepared, 2 * Math.PI * frequencyHz));
  return {
    inductanceH: (frequencyHz) => solved(frequencyHz).inductanceH,
    gradient: (frequencyHz) => solved(frequencyHz).gradient,
  };
}

/** Everything that does not hang on frequency. */
interface Prepared {
  readonly airH: readonly (readonly number[])[];
  readonly bodies: readonly Body[];
  /** Paths that do not act on those of another block, with what coils, poles and strings see of them, in this order. */
  readonly blocks: readonly (Conductors & { readonly seen: readonly Float64Array[] })[];
  /** At each string: of the coils, and of the poles' moments. */
  readonly coilGradients: readonly (readonly number[])[];
  readonly bodyGradients: readonly (readonly number[])[];
}

function prepare({ coils, airH, conductors, poles, strings }: EddyArrangement): Prepared {
  const bodies = poles.map((row) => bodyOf(row, coils));
  return {
    airH,
    bodies,
    blocks: conductors.map((paths) => ({
      ...paths,
      seen: [
        ...paths.toCoils,
        ...bodies.map((body) => pathsToPole(paths, body)),
        ...strings.map((point) => gradientOfPaths(paths, point)),
      ],
    })),
    coilGradients: strings.map((point) => coils.map((coil) => gradientOfCoil(coil, point))),
    bodyGradients: strings.map((point, over) =>
      bodies.map((body) => (body.coil === over ? gradientOfBody(body, point) : 0)),
    ),
  };
}

function solve({ airH, bodies, blocks, coilGradients, bodyGradients }: Prepared, omega: number) {
  const coils = airH.length;
  const induced = inducedBy(blocks, coils + bodies.length, omega);
  /** A real number of the arrangement itself and what the paths' currents add to it. */
  const withPaths = (own: number | undefined, row: number, column: number): Complex =>
    add({ re: own ?? 0, im: 0 }, induced(row, column));
  const ofBodies = (term: (p: number) => Complex): Complex =>
    bodies.reduce<Complex>((sum, _, p) => add(sum, term(p)), zero);

  const reach = bodies.map(({ toCoils }, p) => airH.map((_, i) => withPaths(toCoils[i], coils + p, i)));
  const stiffness = bodies.map((body, p) =>
    bodies.map((_, q) => {
      const own = p === q ? add(divide(ONE, susceptibility(body, omega)), { re: body.demagnetising, im: 0 }) : zero;
      return subtract(own, induced(coils + p, coils + q));
    }),
  );
  const moments = solveComplex(stiffness, reach);
  const moment = (p: number, j: number) => moments[p]?.[j] ?? zero;
  return {
    inductanceH: airH.map((row, i) =>
      row.map((air, j) =>
        add(
          withPaths(air, i, j),
          ofBodies((p) => multiply(reach[p]?.[i] ?? zero, moment(p, j))),
        ),
      ),
    ),
    gradient: coilGradients.map((row, s) => {
      const string = coils + bodies.length + s;
      return row.map((own, j) =>
        add(
          withPaths(own, string, j),
          ofBodies((p) => multiply(withPaths(bodyGradients[s]?.[p], string, coils + p), moment(p, j))),
        ),
      );
    }),
  };
}

/** What `row` sees of the currents that the unit source `column` makes in the paths: −jω · row · (R + jωL)⁻¹ · column. */
function inducedBy(blocks: Prepared['blocks'], sources: number, omega: number) {
  const forms = blocks.map(({ resistanceOhm, inductanceH, seen }) =>
    quadraticForms(resistanceOhm, inductanceH, omega, seen, seen.slice(0, sources)),
  );
  return (row: number, column: number): Complex => {
    let [re, im] = [0, 0];
    for (const form of forms) {
      re += omega * (form.im[row]?.[column] ?? 0);
      im -= omega * (form.re[row]?.[column] ?? 0);
    }
    return { re, im };
  };
}

const ONE: Complex = { re: 1, im: 0 };

interface Body extends PoleRow {
  /** √H: what the poles' moment gives to each coil's flux, per turn, and takes from its current. */
  readonly toCoils: readonly number[];
  readonly demagnetising: number;
  /** Weights of a field along each pole's axis; `scale` times the weighted sum is what the field gives to the moment. */
  readonly weights: readonly (readonly number[])[];
  readonly scale: number;
}

const susceptibility = ({ radiusM, metal }: Body, omega: number) => rodSusceptibility(radiusM, metal, omega);

function bodyOf(row: PoleRow, coils: readonly PlacedCoil[]): Body {
  const fields = coils.map((coil) =>
    row.centres.map((centre) => fieldOfCoil(coil, { ...centre, heightsM: heightsOf(row) })),
  );
  const own = fields[row.coil] ?? [];
  const counts = row.centres.map(({ count }) => count);
  const squares = meanSquareField(row, coils[row.coil]);
  const poleVolume = Math.PI * row.radiusM ** 2 * (row.topM - row.bottomM);
  const ownCoupling = Math.sqrt(MU0 * poleVolume * squares);
  const weights = own.map((field, p) =>
    field.map((h, k) => (counts[p] ?? 1) * h * (1 - ((2 * (k + 0.5)) / SLICES - 1) ** 2)),
  );
  const weighted = (other: readonly (readonly number[])[]) =>
    weights.reduce((sum, weight, p) => sum + weight.reduce((each, w, k) => each + w * (other[p]?.[k] ?? 0), 0), 0);
  const ownWeighted = weighted(own);
  const chi = rodSusceptibility(row.radiusM, row.metal, 0).re;
  return {
    ...row,
    toCoils: fields.map((field) => (ownCoupling * weighted(field)) / ownWeighted),
    demagnetising: ownCoupling ** 2 / row.addedH - 1 / chi,
    weights,
    scale: ownCoupling / ownWeighted,
  };
}

/** H², the square of a coil's field per ampere-turn, averaged over the volume of each pole; the sum over the poles. */
function meanSquareField(row: PoleRow, coil: PlacedCoil | undefined): number {
  if (coil === undefined) return 0;
  return row.centres.reduce((sum, { alongM, acrossM, count }) => {
    const ofPole = DISC_RULE.reduce((mean, { x, y, weight }) => {
      const at = { alongM: alongM + x * row.radiusM, acrossM: acrossM + y * row.radiusM, heightsM: heightsOf(row) };
      return mean + (weight * fieldOfCoil(coil, at).reduce((each, h) => each + h * h, 0)) / SLICES;
    }, 0);
    return sum + count * ofPole;
  }, 0);
}

/** Between which its slices lie. */
const heightsOf = ({ bottomM, topM }: PoleRow): number[] =>
  Array.from({ length: SLICES + 1 }, (_, k) => bottomM + ((topM - bottomM) * k) / SLICES);

function pathsToPole(conductors: Conductors, body: Body): Float64Array {
  const sums = new Float64Array(conductors.size);
  body.centres.forEach((centre, p) => {
    const fields = conductors.fieldAlong({ ...centre, heightsM: heightsOf(body) });
    fields.forEach((field, path) => {
      const weighted = field.reduce((sum, h, k) => sum + h * (body.weights[p]?.[k] ?? 0), 0);
      sums[path] = (sums[path] ?? 0) + body.scale * weighted;
    });
  });
  return sums;
}

const fieldOfCoil = ({ section, centre }: PlacedCoil, line: AxialLine): readonly number[] =>
  axialFieldPerAmpereTurn(section, seenFrom(centre, line));

const about = ({ heightM, ...at }: StringPoint): AxialLine => ({
  ...at,
  heightsM: [heightM - GRADIENT_STEP_M, heightM, heightM + GRADIENT_STEP_M],
});

/** Between the means below and above the middle. */
const slope = ([below = 0, above = 0]: ArrayLike<number> & Iterable<number>): number =>
  (above - below) / GRADIENT_STEP_M;

const gradientOfCoil = (coil: PlacedCoil, point: StringPoint): number => slope(fieldOfCoil(coil, about(point)));

const gradientOfPaths = (conductors: Conductors, point: StringPoint): Float64Array =>
  Float64Array.from(conductors.fieldAlong(about(point)), slope);

/** On the axis of an evenly magnetised rod: M/2 [a²/((z + l)² + a²)^3/2 − a²/(z² + a²)^3/2], z above its top. */
function gradientOfBody({ centres, radiusM, bottomM, topM }: Body, point: StringPoint): number {
  const disc = (z: number) => radiusM ** 2 / (z * z + radiusM ** 2) ** 1.5;
  const volume = Math.PI * radiusM ** 2 * (topM - bottomM);
  const poles = centres.reduce((sum, { count }) => sum + count, 0);
  const perMoment = 1 / Math.sqrt(poles * MU0 * volume);
  return (perMoment / 2) * (disc(point.heightM - bottomM) - disc(point.heightM - topM));
}

/** Solves A X = B, complex, by elimination with the largest pivot; `right` row by row. As few unknowns as there are rows of poles. */
function solveComplex(matrix: readonly (readonly Complex[])[], right: readonly (readonly Complex[])[]): Complex[][] {
  const rows = matrix.map((row, index) => [...row, ...(right[index] ?? [])]);
  const size = rows.length;
  for (let column = 0; column < size; column++) {
    const pivot = rows[column];
    if (pivot === undefined) continue;
    rows.forEach((row, index) => {
      if (index === column) return;
      const factor = divide(row[column] ?? zero, pivot[column] ?? ONE);
      row.forEach((value, k) => {
        row[k] = subtract(value, multiply(factor, pivot[k] ?? zero));
      });
    });
  }
  return rows.map((row, index) => row.slice(size).map((value) => divide(value, row[index] ?? ONE)));
}
