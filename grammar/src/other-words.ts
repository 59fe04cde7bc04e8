/** What the trade writes for words of the language: understood, told and offered in the language's own way. */

/** By what is written, in small letters with hyphens: words of the language that it stands for (common practice, no published source). */
const OTHER: Readonly<Record<string, readonly string[]>> = {
  anticlockwise: ['counterclockwise'],
  'anti-clockwise': ['counterclockwise'],
  ccw: ['counterclockwise'],
  acw: ['counterclockwise'],
  cw: ['clockwise'],
  ceramic: ['ferrite'],
  neo: ['neodymium'],
  ndfeb: ['neodymium'],
  smco: ['samarium-cobalt'],
  'german-silver': ['nickel-silver'],
  aluminum: ['aluminium'],
  stainless: ['stainless-steel'],
  towards: ['toward'],
  facing: ['toward'],
  ol: ['open'],
  '0l': ['open'],
  'o.l': ['open'],
  'o.l.': ['open'],
  inf: ['open'],
  infinite: ['open'],
  '∞': ['open'],
  n: ['north', 'north-up'],
  s: ['south', 'south-up'],
  pos: ['positive'],
  neg: ['negative'],
  log: ['audio'],
  logarithmic: ['audio'],
  lin: ['linear'],
  antilog: ['reverse-audio'],
  'anti-log': ['reverse-audio'],
  heavy: ['double'],
  by: ['x'],
  '*': ['x'],
  '/': ['x'],
  '·': ['x'],
  '-': ['to'],
  '–': ['to'],
  '—': ['to'],
  '->': ['to', 'toward'],
  '>': ['to', 'toward'],
  '→': ['to', 'toward'],
  '+': ['parallel', 'series'],
  '&': ['parallel', 'series'],
};

export function meantBy(written: string): readonly string[] {
  const key = written.toLowerCase();
  return Object.hasOwn(OTHER, key) ? (OTHER[key] ?? []) : [];
}

/** Grades are numbered in Roman figures too. */
const ROMAN: Readonly<Record<string, string>> = { ii: '2', iii: '3', iv: '4', v: '5', viii: '8' };

/** The same letters and figures, whatever their case and what parts them. */
export const sameLetters = (written: string, word: string): boolean => bare(written) === bare(word);

const bare = (text: string): string => {
  const parts = text.toLowerCase().split(/[-_ ]+/);
  return parts.map((part, index) => (index > 0 ? (ROMAN[part] ?? part) : part)).join('');
};
