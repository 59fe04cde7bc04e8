/** Sweeps drawn by chance: a coil, its set-up off by what is not known of it, points with noise. Nothing of the fit's own formulas is used. */
import type { DcReading, MeasuredCurve, SweepsOfCoil } from '../../server/src/physics/sweep/sweep-problem.ts';
import { uniform } from '../support/chance.ts';

interface Complex {
  readonly re: number;
  readonly im: number;
}
const plus = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const over = (a: Complex, b: Complex): Complex => {
  const square = b.re ** 2 + b.im ** 2;
  return { re: (a.re * b.re + a.im * b.im) / square, im: (a.im * b.re - a.re * b.im) / square };
};
const real = (re: number): Complex => ({ re, im: 0 });

export interface DrawnCoil {
  readonly resistanceOhm: number;
  readonly inductanceH: number;
  readonly capacitanceF: number;
  readonly share: number;
  readonly cornerHz: number;
}

export interface DrawnSweep {
  readonly truth: DrawnCoil;
  readonly sweeps: SweepsOfCoil;
}

/** Of the resistor, of the input's resistance and capacitance, of the channels, of the meter: one deviation each. */
const SD = { resistor: 0.005, ohm: 0.025, farad: 30e-12, balance: 0.03 * (Math.LN10 / 20), meter: 0.003 } as const;

export function drawnSweep(kind: 'over' | 'through', seed: number): DrawnSweep {
  const next = uniform(seed);
  const between = (low: number, high: number) => low + (high - low) * next();
  const normal = () => {
    const radius = Math.sqrt(-2 * Math.log(1 - next()));
    return radius * Math.cos(2 * Math.PI * next());
  };
  const truth: DrawnCoil = {
    resistanceOhm: between(4000, 12_000),
    inductanceH: between(1.8, 6),
    capacitanceF: between(60e-12, 160e-12),
    share: between(0.04, 0.3),
    cornerHz: between(3000, 12_000),
  };
  const seriesOhm = kind === 'over' ? 10_000 : 100_000;
  const resistor = seriesOhm * (1 + SD.resistor * normal());
  const input = { ohm: 1e6 * (1 + SD.ohm * normal()), farad: 150e-12 + SD.farad * normal() };
  const gain = 1 + SD.balance * normal();
  const hz = Array.from({ length: 160 }, (_, index) => 20 * 2 ** (index / 16));
  const points = hz.map((each) => {
    const omega = 2 * Math.PI * each;
    const x = each / truth.cornerHz;
    const loop = over({ re: 0, im: x }, { re: 1, im: x });
    const left: Complex = { re: 1 - truth.share * loop.re, im: -truth.share * loop.im };
    const series = plus(real(truth.resistanceOhm), times({ re: 0, im: omega * truth.inductanceH }, left));
    const own = plus(over(real(1), series), { re: 0, im: omega * truth.capacitanceF });
    const entry: Complex = { re: 1 / input.ohm, im: omega * input.farad };
    const ratio =
      kind === 'over'
        ? over(own, plus(own, plus(entry, real(1 / resistor))))
        : over(real(1), plus(real(1), times(real(resistor), plus(own, entry))));
    const size = Math.hypot(ratio.re, ratio.im);
    const noise = Math.hypot(0.0006, 4e-6 / size);
    return {
      magnitude: size * gain * Math.exp(noise * normal()),
      phase: Math.atan2(ratio.im, ratio.re) + noise * normal(),
    };
  });
  const curve: MeasuredCurve = {
    kind,
    hz,
    magnitude: points.map(({ magnitude }) => magnitude),
    phase: points.map(({ phase }) => phase),
    relativeSd: undefined,
    seriesOhm,
    seriesSd: SD.resistor,
    addedFarad: 0,
    addedSd: 0,
    scaleSd: SD.balance,
  };
  const dc: DcReading = { ohm: truth.resistanceOhm * (1 + SD.meter * normal()), sd: SD.meter, meterSd: 0 };
  return {
    truth,
    sweeps: {
      curves: [curve],
      recorder: { ohm: 1e6, ohmSd: SD.ohm, farad: 150e-12, faradSd: SD.farad },
      dc: [dc],
    },
  };
}
