/** True where a name holds the letters of what was typed in their order. */
export function fitsQuery(name: string, query: string): boolean {
  let at = 0;
  const letters = name.toLowerCase();
  for (const letter of query.toLowerCase()) {
    at = letters.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
