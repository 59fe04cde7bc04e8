/** The cards of a file: which there are, which are left out and why, and each as a page. */
import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import { pickupAnalysis } from '../../analysis/pickup-analysis.ts';
import { htmlPage, sheetText } from '../html.ts';
import { benchCard } from './bench-card.ts';
import type { Card, CardKind, CardLeftOut, CardSource } from './card.ts';
import { cardCss, type Paper } from './card-css.ts';
import { handedOverInstrument, handedOverPickup, handOverCard } from './hand-over-card.ts';
import { instrumentCard } from './instrument-card.ts';
import { labelCard } from './label-card.ts';
import { pottingCard } from './potting-card.ts';
import { isWoundHere, windingCard } from './winding-card.ts';
import { wiringCard } from './wiring-card.ts';

export interface Cards {
  readonly cards: readonly Card[];
  readonly leftOut: readonly CardLeftOut[];
}

/** Of every pickup that the file declares (or of those named) and, where no pickup is named, of every instrument. */
export function cardsOf(source: CardSource, kinds: readonly CardKind[], pickupName?: string): Cards {
  const { analysis } = source;
  const pickups = analysis.pickups.filter(({ pickup }) => pickupName === undefined || pickup.name === pickupName);
  const instruments = pickupName === undefined ? analysis.instruments : [];
  const made = kinds.flatMap((kind): readonly (Card | CardLeftOut)[] => {
    if (kind === 'hand-over') return handOvers(source, pickups, instruments);
    const ofInstruments = kind === 'wiring' ? instruments.map((each) => instrumentCard(each, source)) : [];
    return [...pickups.flatMap((each) => pickupCards(kind, each, source)), ...ofInstruments];
  });
  return {
    cards: made.filter((each): each is Card => 'body' in each),
    leftOut: made.filter((each): each is CardLeftOut => 'reason' in each),
  };
}

function pickupCards(
  kind: Exclude<CardKind, 'hand-over'>,
  analysed: PickupAnalysis,
  source: CardSource,
): readonly (Card | CardLeftOut)[] {
  const { pickup } = analysed;
  switch (kind) {
    case 'winding':
      return pickup.coils.map((coil) =>
        isWoundHere(coil)
          ? windingCard(analysed, coil, source)
          : {
              kind,
              about: `${pickup.name}, ${coil.name} coil`,
              reason: 'no turns are stated, so it was not wound here',
            },
      );
    case 'bench':
      return [benchCard(analysed, source)];
    case 'wiring':
      return [wiringCard(analysed, source)];
    case 'potting':
      return [
        pickup.potting
          ? pottingCard(analysed, pickup.potting, source)
          : { kind, about: pickup.name, reason: 'no potting is stated' },
      ];
    case 'label':
      return [labelCard(analysed, source)];
  }
}

/** One of each instrument, and one of each pickup that sits in none. */
function handOvers(
  source: CardSource,
  pickups: readonly PickupAnalysis[],
  instruments: CardSource['analysis']['instruments'],
): readonly Card[] {
  const fitted = new Set(instruments.flatMap(({ instrument }) => instrument.slots.map(({ pickup }) => pickup)));
  const alone = pickups.filter(({ pickup }) => !fitted.has(pickup));
  return [
    ...instruments.map((each) => {
      const own = [...new Set(each.instrument.slots.flatMap(({ pickup }) => pickup ?? []))];
      const analysed = own.map((pickup) => pickupAnalysis(pickup, source.analysis.bench));
      return handOverCard(handedOverInstrument(each, analysed), source);
    }),
    ...alone.map((each) => handOverCard(handedOverPickup(each), source)),
  ];
}

/** The sheet of a card's page, as a hash of it has to be taken. */
export const cardSheet = (card: Card, paper: Paper): string =>
  sheetText([cardCss(paper), ...(card.css ?? []).filter((each) => !cardCss(paper).includes(each))].join('\n'));

export function cardPage(card: Card, paper: Paper, styleSource: string): string {
  return htmlPage({ title: card.title, css: cardSheet(card, paper), styleSource, body: card.body });
}
