import { given } from '../../../grammar/values/present.ts';
import type { Knobs, Played } from '../estimates/position-network.ts';
import { choose } from './choose.ts';
import { CommandError } from './command.ts';
import type { Analysed } from './source.ts';

/** Where the pots stand, for commands that compute a selector position. */
const stands = (control: string) =>
  ({
    type: 'text',
    value: '0..10',
    meaning: `where the ${control} controls stand; 10 unless given; neck=7 for the one of that pickup, 5,neck=7 for both`,
  }) as const;

export const POT_OPTIONS = {
  volume: stands('volume'),
  tone: stands('tone'),
  blend: {
    type: 'text',
    value: '0..10',
    meaning: 'where the blend controls stand: 0 the first pickup alone, 10 the second, 5 (unless given) both',
  },
} as const;

export type PotValues = { readonly [K in keyof typeof POT_OPTIONS]: string | undefined };

/** Both kinds of control as the options set them; those of single slots must be slots of an instrument that is there. */
export function playedBy(values: PotValues, { analysis: { instruments }, shown }: Analysed): Played {
  const [volume, tone] = [settings('volume', values.volume), settings('tone', values.tone)];
  const blend = given({ blend: values.blend === undefined ? undefined : travel('blend', values.blend, values.blend) });
  const names = [...new Set([...volume.apart.keys(), ...tone.apart.keys()])];
  const slots = instruments.flatMap(({ instrument }) => instrument.slots.map(({ name }) => name));
  for (const name of names) choose(slots, (each) => each, { what: 'slot', name, shown });
  if (names.length === 0) return { volume: volume.all, tone: tone.all, ...blend };
  const apart = names.map((name) => [
    name,
    { volume: volume.apart.get(name) ?? volume.all, tone: tone.apart.get(name) ?? tone.all },
  ]);
  return { volume: volume.all, tone: tone.all, ...blend, apart: Object.fromEntries(apart) };
}

/** `7`, `neck=7`, `5,neck=7`. */
function settings(
  option: keyof Knobs,
  written = '',
): { readonly all: number; readonly apart: ReadonlyMap<string, number> } {
  let all = 10;
  const apart = new Map<string, number>();
  for (const part of written === '' ? [] : written.split(',')) {
    const [, name, number = ''] = /^\s*(?:([^=\s]+)=)?(\d+(?:\.\d+)?)\s*$/.exec(part) ?? [];
    const value = travel(option, number, written, ', or neck=7, or 5,neck=7');
    if (name === undefined) all = value;
    else apart.set(name, value);
  }
  return { all, apart };
}

function travel(option: string, number: string, written: string, orElse = ''): number {
  const value = /^\s*\d+(?:\.\d+)?\s*$/.test(number) ? Number(number) : Number.NaN;
  if (value >= 0 && value <= 10) return value;
  throw new CommandError(`--${option} ${written.slice(0, 60)}: a number from 0 to 10${orElse}`);
}
