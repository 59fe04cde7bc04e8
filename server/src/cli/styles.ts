/** Colours of the terminal, or none. Colour repeats what the words say and never carries a meaning alone. */
export type Styles = ReturnType<typeof stylesFor>;

/** Colour only on a terminal that can show it, and never with `NO_COLOR` (any value that is not empty). */
export function stylesFor(isTerminal: boolean, environment: Readonly<Record<string, string | undefined>>) {
  const plain = !isTerminal || (environment.NO_COLOR ?? '') !== '' || environment.TERM === 'dumb';
  const sgr =
    (code: number) =>
    (text: string): string =>
      plain || text === '' ? text : `\u001b[${code}m${text}\u001b[0m`;
  // The eight basic colours (ECMA-48), which follow the terminal's own theme, light or dark.
  return {
    error: sgr(31),
    warning: sgr(33),
    information: sgr(36),
    hint: sgr(36),
    strong: sgr(1),
    faint: sgr(2),
    added: sgr(32),
    removed: sgr(31),
  };
}
