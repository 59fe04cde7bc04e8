/** What work in steps comes to, all of them at once. */
export function finished<T>(steps: Iterator<unknown, T, undefined>): T {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
