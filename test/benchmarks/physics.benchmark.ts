import { performance } from 'node:perf_hooks';
import { type CoilSection, inductancePerTurnSquaredH, selfInductance } from '../../server/src/physics/inductance.ts';
import { mutualInductance } from '../../server/src/physics/mutual-inductance.ts';
import {
  type InductanceMatrix,
  inductanceMatrix,
  inductanceWithPoles,
  type PlacedCoil,
  type PoleRod,
  poleCentresM,
} from '../../server/src/physics/pole-pieces.ts';

/** Prints the medians of the coil integrals, with the error against the converged value beside the time. */
export async function run(): Promise<void> {
  const rows = [selfCold(), pairCold(), pairWithPolesCold(), selfFromMemo(), pairFromMemo()];
  console.log('coil physics (medians)');
  for (const { what, limitMs, ms, error } of rows) {
    console.log(`  ${what.padEnd(44)} ${ms.toFixed(4).padStart(9)} ms  (limit ${limitMs} ms)  ${error}`);
  }
}

interface Row {
  what: string;
  limitMs: number;
  ms: number;
  error: string;
}

const REPEATS = 41;
const CENTRE = { alongM: 0, acrossM: 0, axialM: 0 };

function selfCold(): Row {
  const ms = median((repeat) => void inductancePerTurnSquaredH(coil(repeat)));
  const converged = selfInductance(coil(0), { radialPoints: 16, axialPoints: 16 });
  const error = inductancePerTurnSquaredH(coil(0)) / converged - 1;
  return { what: 'self-inductance, cold', limitMs: 5, ms, error: `error ${error.toExponential(1)}` };
}

function pairCold(): Row {
  const pair = (repeat: number) => ({
    first: coil(repeat),
    second: coil(repeat + 0.5),
    offset: { ...CENTRE, acrossM: 18e-3 },
  });
  const points = { radialPoints: 3, axialPoints: 4 };
  const ms = median((repeat) => void mutualInductance(pair(repeat), points));
  const error = mutualInductance(pair(0), points) / mutualInductance(pair(0), { radialPoints: 8, axialPoints: 8 }) - 1;
  return { what: 'mutual inductance of a pair, cold', limitMs: 20, ms, error: `error ${error.toExponential(1)}` };
}

function pairWithPolesCold(): Row {
  const ms = median((repeat) => void inductanceWithPoles(pairWithPoles(repeat + 0.25)));
  const at = ({ total }: InductanceMatrix, i: number, j: number) => total[i]?.[j] ?? Number.NaN;
  const [ours, fine] = [inductanceWithPoles(pairWithPoles(0)), inductanceMatrix(pairWithPoles(0), 36)];
  const [self, mutual] = [at(ours, 0, 0) / at(fine, 0, 0) - 1, at(ours, 0, 1) / at(fine, 0, 1) - 1];
  const error = `error L ${self.toExponential(1)}, M ${mutual.toExponential(1)} against 36 slices a pole; the model itself 2 %`;
  return { what: 'pair with twelve poles (2 L, M), cold', limitMs: 20, ms, error };
}

function selfFromMemo(): Row {
  const asked = coil(0);
  inductancePerTurnSquaredH(coil(0));
  const ms = median(() => void inductancePerTurnSquaredH(asked));
  return { what: 'self-inductance, remembered', limitMs: 0.01, ms, error: 'same number' };
}

function pairFromMemo(): Row {
  const asked = pairWithPoles(0);
  inductanceWithPoles(pairWithPoles(0));
  const ms = median(() => void inductanceWithPoles(asked));
  return { what: 'pair with twelve poles, remembered', limitMs: 0.01, ms, error: 'same numbers' };
}

/** A slim coil whose build differs by a nanometre from one repeat to the next, so that nothing is remembered. */
function coil(repeat: number): CoilSection {
  return {
    core: { straightM: 56e-3, straightAcrossM: 0, innerRadiusM: 3.2e-3 },
    buildM: 3.8e-3 + repeat * 1e-9,
    heightM: 6.4e-3,
  };
}

function pairWithPoles(repeat: number): { coils: PlacedCoil[]; rods: PoleRod[] } {
  const row = (acrossM: number, diameterM: number): PoleRod[] =>
    poleCentresM(6, 50e-3).map((alongM) => ({
      alongM,
      acrossM,
      bottomM: -6.2e-3,
      topM: 6.2e-3 + repeat * 1e-9,
      diameterM,
      relativePermeability: 200,
    }));
  return {
    coils: [
      { section: coil(repeat), centre: CENTRE },
      { section: coil(repeat + 0.5), centre: { ...CENTRE, acrossM: 18e-3 } },
    ],
    rods: [...row(0, 4.8e-3), ...row(18e-3, 3.4e-3)],
  };
}

function median(work: (repeat: number) => void): number {
  const times = Array.from({ length: REPEATS }, (_, repeat) => {
    const start = performance.now();
    work(repeat + 1);
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[Math.floor(REPEATS / 2)] ?? Number.NaN;
}
