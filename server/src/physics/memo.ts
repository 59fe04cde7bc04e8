/**
 * A function that remembers its results by the value of the numbers it depends on: the same numbers give the same result
 * without computing it again. `keyOf` must name every number that the result depends on. The oldest results are forgotten
 * beyond `limit`, so a session that tries thousands of geometries does not grow without bound.
 */
export function memoByValue<Argument, Result>(
  keyOf: (argument: Argument) => readonly number[],
  compute: (argument: Argument) => Result,
  limit = 1000,
): (argument: Argument) => Result {
  const results = new Map<string, { result: Result }>();
  return (argument) => {
    const key = keyOf(argument).join(' ');
    const known = results.get(key);
    if (known !== undefined) return known.result;
    const result = compute(argument);
    const oldest = results.size >= limit ? results.keys().next().value : undefined;
    if (oldest !== undefined) results.delete(oldest);
    results.set(key, { result });
    return result;
  };
}
