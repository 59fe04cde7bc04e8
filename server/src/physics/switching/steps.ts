/** Work that may take long, in steps: whoever does it can let others come in between, or leave it. */
export type Steps<T> = Generator<void, T, void>;

/** All of it at once. */
export function finished<T>(steps: Steps<T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
