/** One independent cause of uncertainty: a quantity with its best value and standard deviation. */
export interface UncertainSource<Name extends string = string> {
  name: Name;
  value: number;
  sd: number;
}

/** A computed value with its standard deviation. */
export interface UncertainValue {
  readonly value: number;
  readonly sd: number;
}

/**
 * Law of propagation of uncertainty (JCGM 100:2008, 5.1.2), sensitivities from central differences over ± half a standard
 * deviation (Kragten's way). Sources are independent. Exact for a function linear in its sources, and good to a few per cent of the
 * sd where the function bends little over ± 1 sd. Sources with sd 0 are constants.
 */
export function propagate<Name extends string>(
  f: (values: Record<Name, number>) => number,
  sources: readonly UncertainSource<Name>[],
): UncertainValue {
  const centre = Object.fromEntries(sources.map(({ name, value }) => [name, value])) as Record<Name, number>;
  const moves = sources
    .filter(({ sd }) => sd > 0)
    .map(({ name, value, sd }) => f({ ...centre, [name]: value + sd / 2 }) - f({ ...centre, [name]: value - sd / 2 }));
  return { value: f(centre), sd: Math.hypot(...moves) };
}
