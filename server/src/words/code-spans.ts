/** A sentence parted at its back-quotes: what stands between two of them is as a spec has it. */
export const codeSpans = (text: string): readonly { readonly text: string; readonly isCode: boolean }[] =>
  text
    .split(/`([^`]+)`/)
    .map((part, index) => ({ text: part, isCode: index % 2 === 1 }))
    .filter((part) => part.text !== '');
