/** The states that a command line names: `FILE`, `REV:PATH`, and a pickup in either, `FILE#NAME`. */

import { existsSync } from 'node:fs';
import path from 'node:path';
import type { Analysis } from '../analysis/analysis-types.ts';
import { type Comparison, compareStates, type State } from '../comparison/comparison.ts';
import { compareRework, type Rework, reworkOf, reworksOf } from '../comparison/reworks.ts';
import { pickupState, stateOf } from '../comparison/state-of.ts';
import { ENGLISH } from '../words/languages/language.ts';
import { choose, chooseOnly } from './choose.ts';
import { CommandError } from './command.ts';
import type { Context } from './context.ts';
import { uriOf } from './files.ts';
import { gitPath, readFromGit } from './git.ts';
import { analyseSource, hostAsAsked, requireSource, type SourceValues } from './source.ts';

/** Two states and what differs between them. */
export interface Compared {
  readonly names: { readonly before: string; readonly after: string };
  readonly before: Analysis;
  readonly after: Analysis;
  readonly comparison: Comparison;
}

export const comparedStates = (before: State, after: State, names: Compared['names']): Compared => ({
  names,
  before: before.analysis,
  after: after.analysis,
  comparison: compareStates(before, after),
});

/** Two of anything that can be named; where only one names a pickup, it is the other's only one that is meant. */
export async function comparedByName(
  first: string,
  second: string,
  values: SourceValues,
  context: Context,
): Promise<Compared> {
  const [before, after] = [named(first, context), named(second, context)];
  const ofPickup = before.pickup !== undefined || after.pickup !== undefined;
  const stateAt = async ({ file, pickup }: Named): Promise<State> => {
    const analysis = await analysisAt(file, values, context);
    return ofPickup ? onlyPickup(analysis, pickup, file) : stateOf(analysis);
  };
  const [past, now] = [await stateAt(before), await stateAt(after)];
  const names = { before: first, after: second };
  return ofPickup ? comparedStates(...withCommonParts(past, now), names) : comparedStates(past, now, names);
}

/** Every pickup of a file beside the state that it reworks or was found in; of a pickup that is named, that one. */
export async function comparedReworks(
  name: string,
  values: SourceValues,
  context: Context,
): Promise<readonly Compared[]> {
  const { file, pickup } = named(name, context);
  const analysis = await analysisAt(file, values, context);
  if (pickup === undefined) return reworksOf(analysis).map(comparedRework);
  const wanted = { what: 'pickup', name: pickup, shown: file };
  const rework = reworkOf(analysis, [choose(analysis.pickups, (each) => each.pickup.name, wanted).pickup]);
  return rework ? [comparedRework(rework)] : [];
}

function comparedRework(rework: Rework): Compared {
  const { before, after, label } = rework;
  const names = { before: label(ENGLISH), after: after.pickups[0]?.pickup.name ?? '' };
  return { names, before, after, comparison: compareRework(rework) };
}

interface Named {
  readonly file: string;
  readonly pickup: string | undefined;
}

/** A file may have a `#` in its name: one that is there is taken as it is written. */
function named(name: string, { cwd }: Context): Named {
  const at = name.lastIndexOf('#');
  if (at < 0 || existsSync(path.resolve(cwd, name))) return { file: name, pickup: undefined };
  return { file: name.slice(0, at), pickup: name.slice(at + 1) };
}

async function analysisAt(name: string, values: SourceValues, context: Context): Promise<Analysis> {
  const inGit = existsSync(path.resolve(context.cwd, name)) ? undefined : gitPath(name);
  if (inGit) {
    const { file, host } = readFromGit(inGit, context.cwd, context.environment);
    return context.analyser.analyse(uriOf(file), hostAsAsked(host, values));
  }
  return analyseSource(await requireSource(name, values, context), context);
}

function onlyPickup(analysis: Analysis, name: string | undefined, shown: string): State {
  const wanted = { what: 'pickup', name, shown, option: `${shown}#NAME` };
  const chosen = chooseOnly(analysis.pickups, ({ pickup }) => pickup.name, wanted).pickup.name;
  const state = pickupState(analysis, chosen);
  if (state === undefined) throw new CommandError(`${shown} has no pickup ${chosen}`);
  return state;
}

/** Parts that only one of two pickups names are no change of those parts. */
function withCommonParts(a: State, b: State): readonly [State, State] {
  const common = (state: State, other: State): State => ({
    ...state,
    blocks: state.blocks.filter(
      ({ keyword, label }) => keyword === 'pickup' || other.blocks.some((each) => each.label === label),
    ),
  });
  return [common(a, b), common(b, a)];
}
