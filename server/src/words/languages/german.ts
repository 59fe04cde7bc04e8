/** The German of every text that a card or the bench view says. A key that no source says any more fails a test. */
import type { LocalStyle } from '../../quantities/print.ts';
import { CARDS } from './german/cards.ts';
import { DRAWINGS } from './german/drawings.ts';
import { FINDINGS } from './german/findings.ts';
import { REASONS } from './german/reasons.ts';
import { SPEC_WORDS } from './german/spec-words.ts';
import { TERMS } from './german/terms.ts';
import { VIEW } from './german/view.ts';

const all = () => ({ ...TERMS, ...SPEC_WORDS, ...CARDS, ...DRAWINGS, ...VIEW, ...REASONS, ...FINDINGS }) as const;

let made: ReturnType<typeof all> | undefined;

/** Put together for the first who reads German: so many texts take a part of each start that others would notice. */
export function german(): ReturnType<typeof all> {
  made ??= all();
  return made;
}

/** Decimal comma and thin spaces between groups of three (DIN 1333, DIN 5008, recalled); units that are words. */
export const GERMAN_NUMBERS: LocalStyle = { decimalSign: ',', units: { turns: 'Windungen' }, unknown: 'unbekannt' };
