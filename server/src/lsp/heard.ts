import { given } from '../../../grammar/values/present.ts';
import type { Analysis, Played } from '../analysis/analysis-types.ts';
import { BLEND_MIDDLE } from '../estimates/position-network.ts';
import { type HeardPosition, heardPositions } from '../features/heard-positions.ts';
import type { Instrument } from '../model/instrument.ts';
import { ENGLISH } from '../words/languages/language.ts';
import type { SectionParams } from './bench-view-protocol.ts';
import type { Knob, Pots, Subject } from './protocol-parts.ts';

/** The position asked for; an instrument is always heard in one, its first unless another is named. */
export function heardAt(
  analysis: Analysis,
  { subject, position }: Pick<SectionParams, 'subject' | 'position'>,
): HeardPosition | undefined {
  const heard = positionsOf(analysis, subject);
  const asked = heard.find(({ id }) => id === position);
  return asked ?? (subject.kind === 'instrument' ? heard[0] : undefined);
}

/** Positions through which the subject is heard: parts on the shelf in none. */
export const positionsOf = (analysis: Analysis, { kind, name }: Subject): readonly HeardPosition[] =>
  kind === 'parts' ? [] : heardPositions(analysis, { kind, name });

/** Each volume and tone, and one for all blends, in the order in which the spec has them. */
export function knobsOf({ controls }: Instrument, t = ENGLISH): readonly Knob[] {
  const knobs = controls.flatMap((control): readonly Knob[] => {
    const { kind, forSlot } = control;
    if (kind === 'bleed') return [];
    if (kind === 'blend')
      return [{ id: 'blend', label: t('blend, {0} to {1}', forSlot.value, control.other.value), rest: BLEND_MIDDLE }];
    const slot = forSlot?.value;
    return [
      slot === undefined
        ? { id: kind, label: t(kind), rest: 10 }
        : { id: `${slot}.${kind}`, label: `${slot} ${t(kind)}`, rest: 10 },
    ];
  });
  return knobs.filter(({ id }, index) => knobs.findIndex((each) => each.id === id) === index);
}

/** From another process anything may come: pots lie between 0 and 10, to a tenth; what is no knob's name is left out. */
export function potsFrom(pots: Pots | undefined): Played {
  const named = new Map(
    Object.entries(Object(pots ?? {})).flatMap(([id, value]) =>
      typeof value === 'number' && Number.isFinite(value)
        ? [[id, Math.round(Math.min(Math.max(value, 0), 10) * 10) / 10] as const]
        : [],
    ),
  );
  const [volume, tone, blend] = [named.get('volume') ?? 10, named.get('tone') ?? 10, named.get('blend')];
  const slots = [...named.keys()].flatMap((id) => /^(.+)\.(?:volume|tone)$/.exec(id)?.[1] ?? []);
  const apart = [...new Set(slots)].map((slot) => [
    slot,
    { volume: named.get(`${slot}.volume`) ?? volume, tone: named.get(`${slot}.tone`) ?? tone },
  ]);
  return {
    volume,
    tone,
    ...given({ blend }),
    ...(apart.length === 0 ? {} : { apart: Object.fromEntries(apart) }),
  };
}
