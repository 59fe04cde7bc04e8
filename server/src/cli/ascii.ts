import type { Output } from './output.ts';

/** The same output for a terminal whose locale is not UTF-8: plain ASCII. Pipes and files are UTF-8 whatever the locale says. */
export function forLocale(output: Output, environment: Readonly<Record<string, string | undefined>>): Output {
  if (!output.isTerminal || showsUnicode(environment)) return output;
  return { ...output, write: (text) => output.write(ascii(text)) };
}

/** POSIX: LC_ALL before LC_CTYPE before LANG; none of them is the ASCII locale. A console of Windows is written to as UTF-16. */
function showsUnicode(environment: Readonly<Record<string, string | undefined>>): boolean {
  if (environment.OS === 'Windows_NT') return true;
  const { LC_ALL, LC_CTYPE, LANG } = environment;
  return /utf-?8/i.test([LC_ALL, LC_CTYPE, LANG].find((each) => each !== undefined && each !== '') ?? '');
}

const ascii = (text: string): string => text.replace(/[^\0-\x7F]/gu, (each) => SPELT[each] ?? '?');

const SPELT: Readonly<Record<string, string>> = {
  '\u00A0': ' ',
  '\u202F': ' ',
  '\u2212': '-',
  '–': '-',
  '…': '...',
  '·': '|',
  '×': 'x',
  '±': '+-',
  '°': 'deg ',
  Ω: 'ohm',
  µ: 'u',
  μ: 'u',
  '²': '2',
  ω: 'w',
  '’': "'",
  '“': '"',
  '”': '"',
  '━': '=',
  '╌': '-',
};
