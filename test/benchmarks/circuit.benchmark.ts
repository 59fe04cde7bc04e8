import { networkOf } from '../../server/src/physics/circuit/network.ts';
import { audioFrequencies, responseFigures, responseOf } from '../../server/src/physics/circuit/response.ts';
import { type Example, instrumentPosition } from '../support/example-circuits.ts';
import { netlistText } from '../support/netlist-text.ts';
import { runNgspice } from '../support/ngspice.ts';

/** Times the response of a whole instrument beside ngspice with the same netlist in the same run; prints the medians. */
export async function run(): Promise<void> {
  const position = instrumentPosition(2);
  const sizes = networkOf(position.circuit);
  console.log(
    `circuit: ${position.title}, ${sizes.nets.names.length - 1} nodes and ground, ${sizes.size} unknowns, ` +
      `${position.circuit.components.length} components`,
  );
  // The optimising compiler takes some hundreds of sweeps to settle; an editor that is open all day is past that.
  const sweepMs = medianMs(801, () => sweep(position));
  const spice = ngspiceMs(position);
  report('500-point sweep, equations and order included', sweepMs, 'target below 5 ms');
  report(
    'ngspice, whole process, 502 points',
    spice.wholeProcessMs,
    `${(spice.wholeProcessMs / sweepMs).toFixed(0)} times ours`,
  );
  report(
    'ngspice, its own analysis, 502 points',
    spice.analysisMs,
    `${(spice.analysisMs / sweepMs).toFixed(1)} times ours`,
  );

  const positions = [1, 2, 3, 4, 5].map(instrumentPosition);
  report(
    'five positions x 500 points',
    medianMs(51, () => positions.forEach(sweep)),
    'target below 25 ms',
  );
  report(
    'peak and -3 dB of five positions',
    medianMs(51, () => positions.forEach(figures)),
  );
}

function sweep({ circuit, output, values }: Example): void {
  responseOf(networkOf(circuit), output, values, audioFrequencies(500));
}

function figures({ circuit, output, values }: Example): void {
  responseFigures(networkOf(circuit), output, values);
}

/** Median of a few whole processes with one analysis each; the analysis alone as the mean of many in one process. */
function ngspiceMs({ circuit, title, values, output }: Example) {
  const { text, nodeName } = netlistText(circuit, title, values);
  // 167 points a decade over three decades: 502 points.
  const analysis = 'ac dec 167 20 20000';
  const whole = Array.from({ length: 5 }, () =>
    runNgspice(text, [analysis, `wrdata out.txt vr(${nodeName(output)}) vi(${nodeName(output)})`]),
  );
  const repeats = 100;
  const many = runNgspice(text, [`repeat ${repeats}`, analysis, 'destroy all', 'end', 'rusage all']);
  const seconds = /Total analysis time \(seconds\) = (\S+)/.exec(many.output)?.[1];
  return {
    wholeProcessMs: median(whole.map(({ wholeProcessMs }) => wholeProcessMs)),
    analysisMs: (Number(seconds) * 1000) / repeats,
  };
}

/** After as many rounds again, so that what is timed is the compiled code a running editor has. */
function medianMs(times: number, work: () => void): number {
  for (let round = 0; round < times; round++) work();
  return median(
    Array.from({ length: times }, () => {
      const started = performance.now();
      work();
      return performance.now() - started;
    }),
  );
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}

function report(what: string, ms: number, note = ''): void {
  console.log(`  ${what.padEnd(48)} ${ms.toFixed(2).padStart(9)} ms  ${note}`);
}
