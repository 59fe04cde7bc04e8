/** The part of Node's strict assertions that tests in a browser's worker use. */
const assert = { ok, equal, notEqual, deepEqual, match, doesNotMatch, fail, rejects };
export default assert;

function ok(value: unknown, message?: string): asserts value {
  if (!value) fail(message ?? `not true: ${show(value)}`);
}

function equal(actual: unknown, expected: unknown, message?: string): void {
  if (!Object.is(actual, expected)) fail(message ?? `${show(actual)} is not ${show(expected)}`);
}

function notEqual(actual: unknown, unwanted: unknown, message?: string): void {
  if (Object.is(actual, unwanted)) fail(message ?? `${show(actual)} was not wanted`);
}

function deepEqual(actual: unknown, expected: unknown, message?: string): void {
  if (show(actual) !== show(expected)) fail(message ?? `${show(actual)}\nis not\n${show(expected)}`);
}

function match(text: string, pattern: RegExp, message?: string): void {
  if (!pattern.test(text)) fail(message ?? `${show(text)} does not match ${pattern}`);
}

function doesNotMatch(text: string, pattern: RegExp, message?: string): void {
  if (pattern.test(text)) fail(message ?? `${show(text)} matches ${pattern}`);
}

async function rejects(promise: Promise<unknown>, pattern: RegExp): Promise<void> {
  const error = await promise.then(
    () => undefined,
    (reason: unknown) => reason,
  );
  if (error === undefined) fail('did not reject');
  match(String(error), pattern);
}

function fail(message: string): never {
  throw new Error(message);
}

/** Plain data as text with sorted keys, so that two values are equal exactly when their texts are. */
function show(value: unknown): string {
  return JSON.stringify(
    value,
    (_key, part: unknown) => {
      if (part === undefined) return '(undefined)';
      if (typeof part !== 'object' || part === null || Array.isArray(part)) return part;
      return Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)));
    },
    1,
  );
}
