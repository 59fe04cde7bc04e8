/** Values by the object that they belong to, as in a `WeakMap`. */
export interface Attached<K extends object, V> {
  get(key: K): V | undefined;
  set(key: K, value: V): void;
}

/** Constructs what it is given, so that a class made of it puts its private field there. */
class Itself {
  constructor(key: object) {
    // biome-ignore lint/correctness/noConstructorReturn: the object that the field goes to is there already
    return key;
  }
}

/**
 * Each value is kept in a private field of its object: nobody else sees it, a copy of the object has none, and it goes when the object
 * goes. What a `WeakMap` holds outlives its object until the engine looks through all its memory, and each keystroke leaves hundreds.
 */
export function attached<K extends object, V>(): Attached<K, V> {
  class Field extends Itself {
    #value: V;
    constructor(key: K, value: V) {
      super(key);
      this.#value = value;
    }
    static get(key: K): V | undefined {
      return #value in key ? key.#value : undefined;
    }
    static set(key: K, value: V): void {
      if (#value in key) key.#value = value;
      else new Field(key, value);
    }
  }
  return Field;
}
