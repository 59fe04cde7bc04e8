import { attached } from './attached.ts';

/** What is made once for an object; `known` tells whether it has been, without making it. */
export interface Once<K extends object, B extends readonly unknown[], V> {
  (key: K, ...beside: B): V;
  known(key: K, ...beside: B): V | undefined;
}

/** A function that makes its result once for an object, and again where it is asked beside other things (a bench, say) than before. */
export function onceFor<K extends object, B extends readonly unknown[], V>(
  make: (key: K, ...beside: B) => V,
): Once<K, B, V> {
  const made = attached<K, { readonly beside: B; readonly value: V }>();
  // What `map` hands on beside its elements, an index and a list, is none of what it is asked for.
  const asked = make.length - 1;
  const found = (key: K, beside: B) => {
    const known = made.get(key);
    for (let index = 0; known && index < asked; index++) if (known.beside[index] !== beside[index]) return undefined;
    return known;
  };
  const once = (key: K, ...beside: B): V => {
    const known = found(key, beside);
    if (known) return known.value;
    const value = make(key, ...beside);
    made.set(key, { beside, value });
    return value;
  };
  return Object.assign(once, { known: (key: K, ...beside: B) => found(key, beside)?.value });
}

/** The same for plain data, by what they say. */
export function onceForEach<A, V>(make: (argument: A) => V): (argument: A) => V {
  const made = new Map<string | undefined, { readonly value: V }>();
  return (argument) => {
    const key = JSON.stringify(argument);
    const known = made.get(key) ?? { value: make(argument) };
    made.set(key, known);
    return known.value;
  };
}

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
