/** A complex number as plain data: V, Ω or a ratio, as its user says. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export function scale(a: Complex, factor: number): Complex {
  return { re: a.re * factor, im: a.im * factor };
}

export function magnitude(a: Complex): number {
  return Math.hypot(a.re, a.im);
}

export const zero: Complex = { re: 0, im: 0 };

export function add(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}
