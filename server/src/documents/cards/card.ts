import type { Analysis } from '../../analysis/analysis-types.ts';
import type { Language, LanguageCode, PlainText, Text } from '../../words/languages/language.ts';
import type { HtmlNode } from '../html.ts';
import type { PhotoCopies } from '../photographs.ts';
import type { Paper } from './card-css.ts';
import type { CardKind } from './card-kinds.ts';

/** What stands on a hand-over card, in its order. */
export const HAND_OVER_SECTIONS = ['work', 'new', 'old', 'returned', 'positions', 'care', 'contact'] as const;
export type HandOverSection = (typeof HAND_OVER_SECTIONS)[number];

/** What the shop sets, beside the spec. */
export interface CardSetting {
  readonly paper: Paper;
  /** The language of the cards: of whoever they are handed to. */
  readonly t: Language;
  /** Temperature that resistances are printed for, °C. */
  readonly roomC: number;
  /** The file, as footers and codes name it. */
  readonly file: string;
  readonly handOver: readonly HandOverSection[];
  /** More fields of a hand-over card: a title, and what is filled in already. */
  readonly handOverFields: readonly { readonly title: string; readonly text: string }[];
  /** The photographs of a hand-over card; `undefined` where it shall have none. */
  readonly photos?: PhotoCopies | undefined;
}

export interface CardSource {
  readonly analysis: Analysis;
  readonly setting: CardSetting;
}

/** One printable card. */
export interface Card {
  readonly kind: CardKind;
  /** What it is about, as parts of a file name: the pickup, the coil. */
  readonly about: readonly string[];
  readonly title: string;
  readonly language: LanguageCode;
  readonly body: readonly HtmlNode[];
  /** Sheets that its drawings need. */
  readonly css?: readonly string[] | undefined;
}

/** What is said of a card that is not made, by its kind: of what, and why. */
export const NO_CARD = {
  winding: 'no winding card of {0}: {1}',
  continuity: 'no continuity card of {0}: {1}',
  potting: 'no potting card of {0}: {1}',
} as const satisfies Readonly<Partial<Record<CardKind, Text>>>;

/** Why a card that was asked for is not made. */
export interface CardLeftOut {
  readonly kind: keyof typeof NO_CARD;
  readonly about: string;
  readonly reason: PlainText;
}
