/** WCAG 2.2 contrast ratio of two opaque colours, 1 to 21. */
export function contrast(a: string, b: string): number {
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

/** `share` of the first colour, the rest of the second, as `color-mix(in srgb, …)` mixes them. */
export function mix(a: string, b: string, share: number): string {
  const [first, second] = [channels(a), channels(b)];
  const mixed = first.map((channel, index) => Math.round(channel * share + (second[index] ?? 0) * (1 - share)));
  return `#${mixed.map((channel) => channel.toString(16).padStart(2, '0')).join('')}`;
}

/** Relative luminance, WCAG 2.2 definition. */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = channels(colour).map((channel) => {
    const part = channel / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function channels(colour: string): readonly number[] {
  return [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
}
