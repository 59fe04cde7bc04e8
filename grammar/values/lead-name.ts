import { colourOf, colourWords } from './iec60757.ts';

/** One name for a lead however it is written: `VT` and `violet` are the same lead; other names stand for themselves. */
export function canonicalLeadName(written: string): string {
  const colour = colourOf(written);
  return colour ? colourWords(colour) : written;
}
