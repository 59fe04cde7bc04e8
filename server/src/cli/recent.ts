/** The values that were asked for last, as many as are worth their memory; others are made again. */
export function recent<K, V extends object>(most: number): (key: K, make: () => V) => V {
  const kept = new Map<K, V>();
  return (key, make) => {
    const value = kept.get(key) ?? make();
    // To the end: the first is then the one that was not asked for the longest.
    kept.delete(key);
    kept.set(key, value);
    for (const [oldest] of kept) {
      if (kept.size <= most) break;
      kept.delete(oldest);
    }
    return value;
  };
}
