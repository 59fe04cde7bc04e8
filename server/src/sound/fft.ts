/** Discrete Fourier transform in place, radix 2 (Cooley and Tukey 1965). Length: a power of two. The inverse divides by it. */
export function fft(re: Float64Array, im: Float64Array, inverse = false): void {
  const size = re.length;
  reorder(re, im);
  for (let span = 1; span < size; span *= 2) {
    const step = ((inverse ? 1 : -1) * Math.PI) / span;
    const cos = new Float64Array(span).map((_, k) => Math.cos(step * k));
    const sin = new Float64Array(span).map((_, k) => Math.sin(step * k));
    for (let start = 0; start < size; start += 2 * span)
      for (let k = 0; k < span; k++) {
        const upper = start + k;
        const lower = upper + span;
        const c = cos[k] as number;
        const s = sin[k] as number;
        const x = re[lower] as number;
        const y = im[lower] as number;
        const tr = x * c - y * s;
        const ti = x * s + y * c;
        re[lower] = (re[upper] as number) - tr;
        im[lower] = (im[upper] as number) - ti;
        re[upper] = (re[upper] as number) + tr;
        im[upper] = (im[upper] as number) + ti;
      }
  }
  if (!inverse) return;
  for (let k = 0; k < size; k++) {
    re[k] = (re[k] ?? 0) / size;
    im[k] = (im[k] ?? 0) / size;
  }
}

function reorder(re: Float64Array, im: Float64Array): void {
  const size = re.length;
  for (let k = 1, mirrored = 0; k < size; k++) {
    let bit = size >> 1;
    for (; mirrored & bit; bit >>= 1) mirrored ^= bit;
    mirrored ^= bit;
    if (k >= mirrored) continue;
    for (const part of [re, im]) {
      const held = part[k] ?? 0;
      part[k] = part[mirrored] ?? 0;
      part[mirrored] = held;
    }
  }
}
