/** Instruments made up from a seed: pickups of one to three coils, every kind of control, positions of every kind. */
import { uniform } from '../../support/chance.ts';

export interface MadeUp {
  readonly seed: number;
  readonly text: string;
}

export function madeUpInstrument(seed: number): MadeUp {
  const next = uniform(seed);
  const pick = <T>(choices: readonly T[]): T => choices[Math.floor(next() * choices.length)] ?? (choices[0] as T);
  const count = 1 + Math.floor(next() * 3);
  const slots = ['neck', 'middle', 'bridge'].slice(0, count);
  const kinds = slots.map(() => pick(['single', 'series', 'parallel', 'three'] as const));
  const pickups = slots.map((slot, index) => pickupText(`made-${slot}`, kinds[index] ?? 'single', next));
  const parts = slots.flatMap((slot, index) => partsOf(slot, kinds[index] ?? 'single'));
  const positions = Array.from({ length: 1 + Math.floor(next() * 9) }, (_, index) => {
    const title = pick([
      'both',
      '"quoted" <b>&amp;',
      'a title that goes on and on and on for far too long to fit anywhere',
      'x',
    ]);
    const key = pick([String(index + 1), String(index + 1)]);
    return `    ${key} "${title.replaceAll('"', '\\"')}" ${selection(parts, pick, next, 2)}`;
  });
  const owner = pick(slots);
  const controls = [
    ...(next() < 0.8 ? ['volume 500 kohm audio'] : []),
    ...(next() < 0.8 ? ['tone 250 kohm reverse-audio no-load with 22 nF'] : []),
    ...(next() < 0.3 ? [`tone 500 kohm linear with 4n7${next() < 0.5 ? ' at wiper' : ''}`] : []),
    ...(next() < 0.5 ? [pick(['bleed 680 pF', 'bleed 680 pF parallel 150 kohm', 'bleed 1 nF series 82 kohm'])] : []),
    ...(next() < 0.4 ? [`volume 1 Mohm reverse-audio${next() < 0.5 ? ' wiper to pickup' : ''} for ${owner}`] : []),
    ...(next() < 0.4 ? [`tone 500 kohm audio with 100 nF${next() < 0.5 ? ' at wiper' : ''} for ${owner}`] : []),
    ...(next() < 0.2 ? [`bleed 680 pF parallel 150 kohm for ${owner}`] : []),
    ...(count > 1 && next() < 0.5 ? [`blend ${slots[0]} ${slots[1]} 250 kohm ${pick(['linear', 'two-gang'])}`] : []),
  ];
  const text = [
    'use "shop.pickup"',
    ...pickups,
    'instrument made-up "Made up" {',
    '  scale 648 mm',
    '  strings 6 spread 52 mm at bridge, 35 mm at nut',
    ...slots.map((slot, index) => `  pickup ${slot} made-${slot} at ${160 - 55 * index} mm`),
    '  controls {',
    ...controls.map((line) => `    ${line}`),
    '  }',
    '  selector {',
    ...positions,
    '  }',
    '}',
    '',
  ].join('\n');
  return { seed, text };
}

type Kind = 'single' | 'series' | 'parallel' | 'three';

const COLOURS = ['violet', 'grey', 'pink', 'turquoise', 'orange', 'brown'];

function pickupText(name: string, kind: Kind, next: () => number): string {
  const coils = kind === 'single' ? ['main'] : kind === 'three' ? ['one', 'two', 'three'] : ['screw', 'slug'];
  const lead = (index: number) => COLOURS[index] ?? 'white';
  const bodies = coils.map((coil, index) =>
    [
      `  coil ${coil} {`,
      '    bobbin slug-six',
      '    wire plain-42',
      `    turns ${4000 + Math.floor(next() * 4000)}`,
      ...(next() < 0.9 ? [`    wound ${next() < 0.5 ? 'clockwise' : 'counterclockwise'}`] : []),
      ...(next() < 0.9 ? [`    polarity ${next() < 0.5 ? 'north-up' : 'south-up'}`] : []),
      `    start ${lead(2 * index)}`,
      `    finish ${lead(2 * index + 1)}`,
      '  }',
    ].join('\n'),
  );
  const last = coils.length - 1;
  const hookup =
    kind === 'parallel'
      ? [`hot ${lead(1)} ${lead(3)}`, `ground ${lead(0)} ${lead(2)}`]
      : [
          `hot ${lead(2 * last + 1)}`,
          ...coils.slice(1).map((_, index) => `link ${lead(2 * index + 1)} ${lead(2 * index + 2)}`),
          `ground ${lead(0)}`,
        ];
  return [`pickup ${name} {`, ...bodies, '  hookup {', ...hookup.map((line) => `    ${line}`), '  }', '}'].join('\n');
}

function partsOf(slot: string, kind: Kind): readonly string[] {
  if (kind === 'single') return [slot];
  if (kind === 'three') return [slot, `${slot}.one`, `${slot}.two`, `${slot}.three`];
  return kind === 'series'
    ? [slot, `${slot}.slug`, `${slot}.screw`, `${slot}.slug through 4.7 kohm`]
    : [slot, `${slot}.slug`, `${slot}.screw`];
}

function selection(
  parts: readonly string[],
  pick: <T>(choices: readonly T[]) => T,
  next: () => number,
  depth: number,
): string {
  const roll = next();
  if (depth === 0 || roll < 0.4) return pick(parts);
  const word = roll < 0.75 ? 'parallel' : 'series';
  const inner = () => {
    const text = selection(parts, pick, next, depth - 1);
    const wrapped = / (parallel|series) /.test(text) ? `(${text})` : text;
    return next() < 0.15 && !wrapped.includes('through') ? `reversed ${wrapped}` : wrapped;
  };
  return `${inner()} ${word} ${inner()}`;
}
