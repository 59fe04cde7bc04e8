/** Knobs of the bench view that are moved by hand, and the text that they would make. */
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { rowFigure } from '../comparison/numbers-table.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { locateEdits, type TextEdit } from '../features/text-edits.ts';
import type { Coil } from '../model/coil.ts';
import { wireWords } from '../proposal/build-words.ts';
import { shelfOf } from '../proposal/shelf.ts';
import { type PickupKnob, pickupKnobs, TURNS_STEP, whatIfEdits } from '../proposal/what-if.ts';
import { type Effects, effectsAtHand, FIGURES } from '../proposal/what-if-at-hand.ts';
import { instrumentKnobs, poleKnobs, type ValueKnob, valueEdits } from '../proposal/what-if-lines.ts';
import type { Language } from '../words/languages/language.ts';
import { PICKUP_NUMBERS } from '../words/numbers.ts';
import type { SectionAsked, Settings, WhatIfFigure, WhatIfKnob, WhatIfView } from './bench-view-protocol.ts';
import { type ComparedStates, instrumentNamed, pickupNamed, pickupsIn } from './compared-states.ts';
import type { Subject } from './protocol-parts.ts';

/** What may be moved of a pickup, or of an instrument and the pickups in it. */
interface Movable {
  readonly pickups: readonly {
    readonly quick: QuickEstimates;
    readonly knobs: readonly PickupKnob[];
    readonly wound: readonly Coil[];
  }[];
  readonly values: readonly ValueKnob[];
}

function movableOf(analysis: Analysis, subject: Subject): Movable {
  const shelf = shelfOf(analysis);
  const pickups = [...new Set(pickupsIn(analysis, subject))];
  const instrument = subject.kind === 'instrument' ? instrumentNamed(analysis, subject.name) : undefined;
  const values = [...poleKnobs(pickups), ...(instrument ? instrumentKnobs(instrument.instrument) : [])];
  return {
    pickups: pickups.map((pickup) => {
      const quick = quickOf(analysis.bench)(pickup);
      return { quick, ...pickupKnobs(quick, shelf, instrument ? `${pickup.name}/` : '') };
    }),
    // A shared part is moved in the file that is open only: others that use it are not in sight here.
    values: values.filter(({ place }) => analysis.locate(place)?.uri === analysis.uri),
  };
}

export function whatIfView({ now, t }: ComparedStates, { subject }: SectionAsked): WhatIfView {
  const { pickups, values } = movableOf(now, subject);
  const own = subject.kind === 'pickup' ? pickupNamed(now, subject.name) : undefined;
  const isOneOfSeveral = own === undefined;
  const knobs = [
    ...pickups.flatMap(({ quick, knobs }) => {
      const effects = own ? effectsAtHand(quick, knobs) : undefined;
      const { name } = quick.netlist.pickup;
      return knobs.map((knob) => {
        const view = knobView(knob, effects?.get(knob.id), t);
        return isOneOfSeveral ? { ...view, label: `${name}: ${view.label}` } : view;
      });
    }),
    ...values.map((knob) => valueView(knob, t)),
  ];
  if (knobs.length === 0) return { knobs: [], figures: [], stay: [] };
  const stay = pickups.flatMap(({ wound, quick }) =>
    wound.map(({ name }) => ({ name, of: isOneOfSeveral ? `${quick.netlist.pickup.name}: ` : '' })),
  );
  return {
    knobs,
    figures: own ? figuresOf(own, t) : [],
    stay: stay.map(({ name, of }) => of + t('The {0} coil is wound: its turns and its wire stay as they are.', name)),
  };
}

const VALUE_LABELS = {
  poles: (of: string, t: Language) => t('height of the poles of {0}, mm', of),
  volume: (of: string, t: Language) => `${of} ${t('volume')}`.trim(),
  tone: (of: string, t: Language) => `${of} ${t('tone')}`.trim(),
  capacitor: (of: string, t: Language) => `${of} ${t('capacitor')}`.trim(),
  cable: (_: string, t: Language) => t('cable'),
} as const;

function valueView({ id, now, what, of = '', options }: ValueKnob, t: Language): WhatIfKnob {
  const choices = options.map(({ text }) => ({ id: text, label: text }));
  return { id, now, label: VALUE_LABELS[what](of, t), choices, at: [], effects: [] };
}

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
    if (!known) return { row: t(names[figure].what), now: Number.NaN, text: t('unknown'), decimals: 0, isLevel };
    const { row, value, decimals, text } = rowFigure(known, names[figure], t);
    return { row, now: value, text, decimals, isLevel };
  });
}

/** Beside each other, the text as it stands and as it would be with knobs moved; and what would be written. */
export interface MovedStates {
  /** What if as `now`, now as `before`. */
  readonly states: ComparedStates;
  readonly edits: readonly TextEdit[];
}

/** `undefined`: nothing is moved, or the text cannot say it. */
export function movedStates(states: ComparedStates, subject: Subject, settings: Settings): MovedStates | undefined {
  const { now, t } = states;
  const { pickups, values } = movableOf(now, subject);
  const parts = pickups.map(({ quick, knobs }) => whatIfEdits(quick.netlist.pickup, knobs, settings));
  if (parts.includes(undefined)) return undefined;
  const edits = [...parts.flatMap((part) => part ?? []), ...valueEdits(values, settings)];
  const written = edits.length > 0 ? locateEdits(now, edits) : undefined;
  const after = written && now.edited(edits);
  if (!written || !after) return undefined;
  const facts = { changes: [], renamed: new Map() };
  const before = { label: () => t('now'), analysis: now, after, facts, uses: [] };
  return { states: { ...states, now: after, before, called: t('what if') }, edits: written };
}
