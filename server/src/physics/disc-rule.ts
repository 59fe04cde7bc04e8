/** Stroud, Approximate Calculation of Multiple Integrals (1971), S2: 5-1 (recalled): mean over the unit disc at seven points, degree 5. */
export const DISC_RULE: readonly { x: number; y: number; weight: number }[] = [
  { x: 0, y: 0, weight: 1 / 4 },
  ...[0, 1, 2, 3, 4, 5].map((sixth) => ({
    x: Math.sqrt(2 / 3) * Math.cos((Math.PI * sixth) / 3),
    y: Math.sqrt(2 / 3) * Math.sin((Math.PI * sixth) / 3),
    weight: 1 / 8,
  })),
];
