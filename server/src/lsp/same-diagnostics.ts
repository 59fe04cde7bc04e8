import type { Diagnostic } from 'vscode-languageserver';

/** True where what is sent of one list is what is sent of the other: they are plain data. */
export const sayTheSame = (some: readonly Diagnostic[], others: readonly Diagnostic[]): boolean =>
  some.length === others.length && some.every((each, index) => isSameData(each, others[index]));

function isSameData(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  const fields = Object.keys(one);
  return (
    fields.length === Object.keys(other).length &&
    fields.every((field) => isSameData(Reflect.get(one, field), Reflect.get(other, field)))
  );
}
