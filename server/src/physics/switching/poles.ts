/** The poles of a switch, by its contacts alone. */
import type { Contacts } from './rig.ts';
import { TerminalSets } from './terminal-sets.ts';

/** Lugs that contacts ever make one, and the one of them that they make one with others most often. */
export interface PoleOfLugs {
  readonly lugs: readonly string[];
  readonly common: string;
}

export function polesOf({ lugs, detents }: Contacts): readonly PoleOfLugs[] {
  const sets = new TerminalSets(lugs.length);
  const timesClosed = lugs.map(() => 0);
  for (const group of detents.flatMap(({ joins }) => joins)) {
    const members = group.map((lug) => lugs.indexOf(lug));
    sets.joinAll(members);
    for (const each of members) timesClosed[each] = (timesClosed[each] ?? 0) + 1;
  }
  const roots = lugs.map((_, lug) => sets.rootOf(lug));
  return [...new Set(roots)].map((root) => {
    const members = [...roots.keys()].filter((lug) => roots[lug] === root);
    const most = Math.max(...members.map((lug) => timesClosed[lug] ?? 0));
    const common = members.find((lug) => timesClosed[lug] === most) ?? 0;
    return { lugs: members.map((lug) => lugs[lug] ?? ''), common: lugs[common] ?? '' };
  });
}

/** Commons of poles that meet their throws in the same detents. */
export function alikePoles(contacts: Contacts): readonly (readonly string[])[] {
  const byShape = new Map<string, string[]>();
  for (const { lugs, common } of polesOf(contacts)) {
    // Lugs by their order in the pole, so that only the table counts and no name.
    const shape = JSON.stringify(
      contacts.detents.map(({ joins }) =>
        joins
          .filter((group) => group.some((each) => lugs.includes(each)))
          .map((group) => group.map((each) => lugs.indexOf(each))),
      ),
    );
    byShape.set(shape, [...(byShape.get(shape) ?? []), common]);
  }
  return [...byShape.values()].filter((commons) => commons.length > 1);
}
