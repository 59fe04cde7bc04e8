/** The cards of a file: which there are, which are left out and why, and each as a page. */
import type { InstrumentAnalysis, PickupAnalysis } from '../../analysis/analysis-types.ts';
import { newestOf } from '../../analysis/newest.ts';
import { pickupAnalysis } from '../../analysis/pickup-analysis.ts';
import { isWoundHere } from '../../model/work-done.ts';
import { htmlPage } from '../html.ts';
import { benchCard } from './bench-card.ts';
import type { Card, CardLeftOut, CardSource } from './card.ts';
import { cardCss, type Paper } from './card-css.ts';
import type { CardKind } from './card-kinds.ts';
import { continuityCard } from './continuity-card.ts';
import { handedOverInstrument, handedOverPickup, handOverCard } from './hand-over-card.ts';
import { instrumentCard } from './instrument-card.ts';
import { labelCard } from './label-card.ts';
import { pottingCard } from './potting-card.ts';
import { windingCard } from './winding-card.ts';
import { wiringCard } from './wiring-card.ts';

export interface Cards {
  readonly cards: readonly Card[];
  readonly leftOut: readonly CardLeftOut[];
}

/** Of every pickup that the file declares, in its newest state (or of the one named), and, where none is named, of every instrument. */
export function cardsOf(source: CardSource, kinds: readonly CardKind[], pickupName?: string): Cards {
  const { analysis } = source;
  const pickups =
    pickupName === undefined
      ? newestOf(analysis.pickups)
      : analysis.pickups.filter(({ pickup }) => pickup.name === pickupName);
  const instruments = pickupName === undefined ? analysis.instruments : [];
  const made = kinds.flatMap((kind) => MAKERS[kind]({ pickups, instruments }, source));
  return {
    cards: made.filter((each): each is Card => 'body' in each),
    leftOut: made.filter((each): each is CardLeftOut => 'reason' in each),
  };
}

const NOT_WOUND = 'no turns are stated, so it was not wound here';

interface Subjects {
  readonly pickups: readonly PickupAnalysis[];
  readonly instruments: readonly InstrumentAnalysis[];
}

const MAKERS: Readonly<Record<CardKind, (subjects: Subjects, source: CardSource) => readonly (Card | CardLeftOut)[]>> =
  {
    winding: ({ pickups }, source) =>
      pickups.flatMap((analysed) =>
        analysed.pickup.coils.map((coil) => {
          if (isWoundHere(coil)) return windingCard(analysed, coil, source);
          const about = `${analysed.pickup.name}, ${source.setting.t('{0} coil', coil.name)}`;
          return { kind: 'winding', about, reason: coil.work ? 'it was kept' : NOT_WOUND };
        }),
      ),
    bench: ({ pickups }, source) => pickups.map((each) => benchCard(each, source)),
    wiring: ({ pickups, instruments }, source) => [
      ...pickups.map((each) => wiringCard(each, source)),
      ...instruments.map((each) => instrumentCard(each, source)),
    ],
    continuity: ({ instruments }, source) =>
      instruments.flatMap((each): readonly (Card | CardLeftOut)[] => {
        const card = continuityCard(each, source);
        return card ? [card] : notContinuous(each);
      }),
    potting: ({ pickups }, source) =>
      pickups.map((each) => {
        const { name, potting } = each.pickup;
        return potting
          ? pottingCard(each, potting, source)
          : { kind: 'potting', about: name, reason: 'no potting is stated' };
      }),
    'hand-over': handOvers,
    label: ({ pickups }, source) => pickups.map((each) => labelCard(each, source)),
  };

/** Of an instrument without a switch that is described nothing is asked. */
const notContinuous = ({ written: { name, switches } }: InstrumentAnalysis): readonly CardLeftOut[] =>
  switches.length === 0 ? [] : [{ kind: 'continuity', about: name, reason: 'its wiring is not known to the last lug' }];

/** One of each instrument, and one of each pickup that sits in none. */
function handOvers({ pickups, instruments }: Subjects, source: CardSource): readonly Card[] {
  const fitted = new Set(instruments.flatMap(({ instrument }) => instrument.slots.map(({ pickup }) => pickup)));
  const alone = pickups.filter(({ pickup }) => !fitted.has(pickup));
  return [
    ...instruments.map((each) => {
      const own = [...new Set(each.instrument.slots.flatMap(({ pickup }) => pickup ?? []))];
      const analysed = own.map((pickup) => pickupAnalysis(pickup, source.analysis.bench));
      return handOverCard(handedOverInstrument(each, analysed, source.setting.t), source);
    }),
    ...alone.map((each) => handOverCard(handedOverPickup(each, source.setting.t), source)),
  ];
}

export function cardPage({ title, language, css = [], body }: Card, paper: Paper): Promise<string> {
  const own = cardCss(paper);
  return htmlPage({ title, language, css: [own, ...css.filter((each) => !own.includes(each))].join('\n'), body });
}

/** Names that every file system takes, no two alike even where capitals do not count. */
export function cardFileNames(made: readonly Card[]): readonly string[] {
  const used = new Set<string>();
  return made.map(({ kind, about }) => {
    const parts = about.map((part) => [...part.replace(/[^\p{L}\p{N}_-]+/gu, '-')].slice(0, LONGEST_PART).join(''));
    const stem = [kind, ...parts].join('-');
    let name = stem;
    for (let count = 2; used.has(name.toLowerCase()); count++) name = `${stem}-${count}`;
    used.add(name.toLowerCase());
    return name;
  });
}

/** In characters of up to three bytes: file systems take 255 bytes a name. */
const LONGEST_PART = 36;
