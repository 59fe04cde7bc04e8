/**
 * Invented wirings with what they do, worked out by a program that knows no union-find and no folding: nodal equations with random
 * resistances, closure of joints by powers of their matrix. Names of lugs, leads and switches are made up.
 */
import { readFileSync } from 'node:fs';
import type { Wanted } from '../../../server/src/physics/switching/changes.ts';
import { type Folded, joined, turned } from '../../../server/src/physics/switching/folded.ts';
import { numberedRig, textOf } from '../../../server/src/physics/switching/meaning.ts';
import type { Rig, SwitchState, Travel } from '../../../server/src/physics/switching/rig.ts';

interface GivenSwitch {
  readonly travel: Travel;
  readonly lugs: readonly string[];
  readonly detents: readonly { readonly name: string; readonly joins: readonly (readonly string[])[] }[];
}

export interface AnalysisCase {
  readonly id: string;
  readonly title: string;
  readonly given: {
    readonly switches: Readonly<Record<string, GivenSwitch>>;
    readonly coils: Readonly<Record<string, readonly [string, string]>>;
    readonly parts: Readonly<Record<string, readonly [string, string]>>;
    readonly links: readonly (readonly string[])[];
    readonly wholes: Readonly<Record<string, readonly string[]>>;
    readonly selector?: readonly { readonly at: Readonly<Record<string, string>>; readonly want: string }[];
    readonly injectedFault?: { readonly swap?: readonly string[]; readonly move?: string };
  };
  readonly expected: {
    readonly states: readonly {
      readonly at: string;
      readonly fault: 'open' | 'shorted' | null;
      readonly network: string;
      readonly coils: Readonly<Record<string, string>>;
      readonly dead: Readonly<Record<string, string>>;
    }[];
    readonly between: readonly { readonly from: string; readonly to: string; readonly hot: string }[];
    readonly unusedLugs: readonly string[];
    readonly sameStates: readonly (readonly [string, string])[];
    readonly continuity: readonly { readonly at: string; readonly lugsTogether: readonly (readonly string[])[] }[];
    readonly faults?: {
      readonly wrongPositions: readonly number[];
      readonly repairs: readonly (
        | { readonly move: string; readonly to: readonly string[] | 'nothing' }
        | { readonly swap: readonly [string, string] }
      )[];
    };
  };
}

const file = new URL('./analysis-cases.json', import.meta.url);
export const analysisCases: readonly AnalysisCase[] = JSON.parse(readFileSync(file, 'utf8')).analysis;

export function rigOf({ given }: AnalysisCase): Rig {
  const element =
    (isCoil: boolean) =>
    ([name, ends]: [string, readonly [string, string]]) => ({ name, isCoil, ends });
  return {
    switches: Object.entries(given.switches).map(([slot, { lugs, detents, travel }]) => ({
      slot,
      contacts: { lugs, detents, travel },
    })),
    elements: [...Object.entries(given.coils).map(element(true)), ...Object.entries(given.parts).map(element(false))],
    fixed: [],
    links: given.links,
  };
}

/** `lever=1,pull=down` */
export const stateText = ({ switches }: Rig, state: SwitchState): string =>
  switches.map(({ slot, contacts }, index) => `${slot}=${contacts.detents[state[index] ?? 0]?.name}`).join(',');

export const stateAt = ({ switches }: Rig, at: Readonly<Record<string, string>>): SwitchState =>
  switches.map(({ slot, contacts }) => contacts.detents.findIndex(({ name }) => name === at[slot]));

/** Every terminal of the wiring: hot, ground and leads, which a person would rather move, then lugs. */
export function movableIn(rig: Rig): readonly string[] {
  const lugs = rig.switches.flatMap(({ slot, contacts }) => contacts.lugs.map((lug) => `${slot}.${lug}`));
  return [...numberedRig(rig).terminals.filter((terminal) => !lugs.includes(terminal)), ...lugs];
}

/** The wanted positions, each in the canonical text; the selector's words `series`, `parallel` and `reversed` are read here once more. */
export function wantedOf(each: AnalysisCase): readonly Wanted[] {
  const rig = rigOf(each);
  return (each.given.selector ?? []).map(({ at, want }) => ({
    state: stateAt(rig, at),
    texts: new Set([wantedText(want, each)]),
  }));
}

function wantedText(want: string, { given }: AnalysisCase): string {
  const elements = Object.keys(given.coils).map((name) => ({ name, isCoil: true }));
  const coil = (name: string): Folded => ({ kind: 'element', name, turned: false });
  const part = (words: string): Folded => {
    if (words.startsWith('reversed ')) return turned(part(words.slice('reversed '.length)));
    const whole = given.wholes[words];
    if (whole) return joined('series', whole.map(coil));
    return coil(words in given.coils ? words : `${words}.main`);
  };
  const folded = joined(
    'parallel',
    want.split(' parallel ').map((row) => joined('series', row.split(' series ').map(part))),
  );
  return textOf(folded, elements);
}
