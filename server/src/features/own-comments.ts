/** The comments right above a line or block, with its own indentation: they belong to it and go where it goes. */
export const ownComments = (above: string): string =>
  /(?:[ \t]*#[^\r\n]*(?:\r\n|\r|\n))*[ \t]*$/.exec(above)?.[0] ?? '';

/** Where the line ends that holds the offset. */
export const lineEnd = (text: string, from: number): number =>
  from + (/^[^\r\n]*/.exec(text.slice(from))?.[0].length ?? 0);
