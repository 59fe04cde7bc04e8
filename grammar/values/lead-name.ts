import { type Colour, colourOf, colourWords, isColourName } from './iec60757.ts';

/** One name for a lead however it is written: `VT` and `violet` are the same lead; other names stand for themselves. */
export function canonicalLeadName(written: string): string {
  // Asked of each lead again and again: most are written by that name.
  if (isColourName(written)) return written;
  const colour = colourOf(written);
  return colour ? colourWords(colour) : written;
}

/** The colour that a lead is named by, as it is written (`RDBU`, `red-and-blue`) or by its one name (`red and blue`). */
export const leadColour = (name: string): Colour | undefined => colourOf(name.replaceAll(' and ', '-and-'));

/** Its letters where it is named by a colour, for places with little room. */
export const leadLetters = (name: string): string => leadColour(name)?.code ?? name;
