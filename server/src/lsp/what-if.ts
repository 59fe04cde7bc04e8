/** Knobs of the bench view that are moved by hand, and the text that they would make. */
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { rowFigure } from '../comparison/numbers-table.ts';
import { locateEdits, type TextEdit } from '../features/text-edits.ts';
import { wireWords } from '../proposal/build-words.ts';
import { shelfOf } from '../proposal/shelf.ts';
import { type PickupKnob, type PickupKnobs, pickupKnobs, TURNS_STEP, whatIfEdits } from '../proposal/what-if.ts';
import { type Effects, effectsAtHand, FIGURES } from '../proposal/what-if-at-hand.ts';
import type { Language } from '../words/languages/language.ts';
import { PICKUP_NUMBERS } from '../words/numbers.ts';
import type { SectionAsked, Settings, WhatIfFigure, WhatIfKnob, WhatIfView } from './bench-view-protocol.ts';
import { type ComparedStates, pickupNamed } from './compared-states.ts';
import type { Subject } from './protocol-parts.ts';

export function whatIfView({ now, t }: ComparedStates, { subject }: SectionAsked): WhatIfView {
  const pickup = subject.kind === 'pickup' ? pickupNamed(now, subject.name) : undefined;
  if (pickup === undefined) return { knobs: [], figures: [], stay: [] };
  const { knobs, wound } = knobsOf(now, pickup);
  if (knobs.length === 0) return { knobs: [], figures: [], stay: [] };
  const effects = effectsAtHand(quickOf(now.bench)(pickup.pickup), knobs);
  return {
    knobs: knobs.map((knob) => knobView(knob, effects.get(knob.id), t)),
    figures: figuresOf(pickup, t),
    stay: wound.map(({ name }) => t('The {0} coil is wound: its turns and its wire stay as they are.', name)),
  };
}

const knobsOf = (analysis: Analysis, { pickup }: PickupAnalysis): PickupKnobs =>
  pickupKnobs(quickOf(analysis.bench)(pickup), shelfOf(analysis));

function knobView(knob: PickupKnob, effects: Effects | undefined, t: Language): WhatIfKnob {
  const table = { at: effects?.at ?? [], effects: FIGURES.map((figure) => effects?.of[figure] ?? []) };
  const { id, now } = knob;
  switch (knob.kind) {
    case 'turns':
      return {
        id,
        now,
        label: t('{0} coil, {1}', knob.coil.name, t('turns')),
        slider: { fewest: knob.fewest, most: knob.most, step: TURNS_STEP, unit: t('turns') },
        ...table,
      };
    case 'wire':
      return {
        id,
        now,
        label: t('{0} coil, {1}', knob.coil.name, t('wire')),
        choices: [...knob.options].map(([line, { wire, spool }]) => ({
          id: line,
          label: spool ? t('{0}, spool {1}', wireWords(wire), spool.name) : wireWords(wire),
        })),
        ...table,
      };
    case 'magnet':
      return {
        id,
        now,
        label: t('magnet'),
        choices: knob.options.map((name) => ({ id: name, label: name })),
        ...table,
      };
  }
}

function figuresOf(pickup: PickupAnalysis, t: Language): readonly WhatIfFigure[] {
  const { resistance20COhm, inductanceH, resonanceHz, peakDb } = pickup.estimates();
  const of = { resistance: resistance20COhm, inductance: inductanceH, resonance: resonanceHz, peak: peakDb };
  const names = {
    resistance: PICKUP_NUMBERS.resistance20COhm,
    inductance: PICKUP_NUMBERS.inductanceH,
    resonance: PICKUP_NUMBERS.resonanceHz,
    peak: PICKUP_NUMBERS.peakDb,
  };
  return FIGURES.map((figure) => {
    const isLevel = figure === 'peak';
    const known = of[figure];
    if (!known) return { row: t(names[figure].what), now: Number.NaN, decimals: 0, isLevel };
    const { row, value, decimals } = rowFigure(known, names[figure], t);
    return { row, now: value, decimals, isLevel };
  });
}

/** Beside each other, the text as it stands and as it would be with knobs moved; and what would be written. */
export interface MovedStates {
  readonly pickup: PickupAnalysis;
  /** What if as `now`, now as `before`. */
  readonly states: ComparedStates;
  readonly edits: readonly TextEdit[];
}

/** `undefined`: nothing is moved, or the text cannot say it. */
export function movedStates(
  states: ComparedStates,
  { kind, name }: Subject,
  settings: Settings,
): MovedStates | undefined {
  const { now, t } = states;
  const pickup = kind === 'pickup' ? pickupNamed(now, name) : undefined;
  const edits = pickup && whatIfEdits(pickup.pickup, knobsOf(now, pickup).knobs, settings);
  const written = edits && edits.length > 0 ? locateEdits(now, edits) : undefined;
  const after = written && edits && now.edited(edits);
  if (!pickup || !written || !after) return undefined;
  const facts = { changes: [], renamed: new Map() };
  const before = { label: t('now'), analysis: now, after, facts, uses: [] };
  return { pickup, states: { ...states, now: after, before, called: t('what if') }, edits: written };
}
