/** The printable cards. A kind added here is asked for wherever cards are made, and where a person chooses among them. */
export const CARD_KINDS = ['winding', 'bench', 'wiring', 'continuity', 'potting', 'hand-over', 'label'] as const;
export type CardKind = (typeof CARD_KINDS)[number];
