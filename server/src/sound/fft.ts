/** Discrete Fourier transform in place, radix 2 (Cooley and Tukey 1965). Length: a power of two. The inverse divides by it. */
export function fft(re: Float64Array, im: Float64Array, inverse = false): void {
  const size = re.length;
  reorder(re, im);
  for (let span = 1; span < size; span *= 2) {
    const step = ((inverse ? 1 : -1) * Math.PI) / span;
    const cos = Float64Array.from({ length: span }, (_, k) => Math.cos(step * k));
    const sin = Float64Array.from({ length: span }, (_, k) => Math.sin(step * k));
    for (let start = 0; start < size; start += 2 * span)
      for (let k = 0; k < span; k++) {
        const [upper, lower] = [start + k, start + k + span];
        const [c, s, x, y] = [cos[k] ?? 1, sin[k] ?? 0, re[lower] ?? 0, im[lower] ?? 0];
        const [tr, ti] = [x * c - y * s, x * s + y * c];
        const [ur, ui] = [re[upper] ?? 0, im[upper] ?? 0];
        re[lower] = ur - tr;
        im[lower] = ui - ti;
        re[upper] = ur + tr;
        im[upper] = ui + ti;
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
