/**
 * A lug that states want on different nets: moved alone, it puts every state right, but no one place of it does. Complete over the places
 * of one lug; nothing else is moved.
 */
import { changed, type Wanted } from './changes.ts';
import { numberedRig, setsOf, textsBy } from './meaning.ts';
import { closedIn, GROUND, HOT, type Rig } from './rig.ts';

export interface TornLug {
  readonly lug: string;
  /** Two states by their place in the list, and where each wants the lug: terminals of a net, or nothing. */
  readonly wants: readonly [TornWant, TornWant];
}

export interface TornWant {
  readonly state: number;
  readonly on: readonly string[] | 'nothing';
}

/** The first of these lugs that is torn; `undefined` where none is, and where one place of a lug puts all right. */
export function tornLug(rig: Rig, wanted: readonly Wanted[], lugs: readonly string[]): TornLug | undefined {
  const numbered = numberedRig(rig);
  const fixed = numbered.numbered(rig.fixed);
  const textOf = textsBy(numbered);
  const closed = wanted.map(({ state }) => numbered.numbered(closedIn(rig, state)));
  for (const lug of lugs) {
    const places = placesOf(lug, rig.links);
    const links = places.map((on) => numbered.numbered(changed(rig.links, { kind: 'move', terminal: lug, to: on })));
    const fits: (readonly number[])[] = [];
    for (const [state, { texts }] of wanted.entries()) {
      const right = places.flatMap((_, place) =>
        texts.has(textOf(setsOf(numbered, [fixed, links[place] ?? [], closed[state] ?? []]))) ? [place] : [],
      );
      if (right.length === 0) break;
      fits.push(right);
    }
    const apart = fits.length < wanted.length ? undefined : firstApart(fits);
    if (!apart) continue;
    const want = (state: number): TornWant => ({ state, on: places[fits[state]?.[0] ?? 0] ?? 'nothing' });
    return { lug, wants: [want(apart[0]), want(apart[1])] };
  }
  return undefined;
}

/** Where it may lie: what asks least first. */
function placesOf(lug: string, links: Rig['links']): readonly TornWant['on'][] {
  const without = links.map((net) => net.filter((terminal) => terminal !== lug)).filter((net) => net.length > 0);
  const commons = [HOT, GROUND].map((common) => without.find((net) => net.includes(common)) ?? [common]);
  return ['nothing', ...commons, ...without.filter((net) => !commons.includes(net))];
}

/** Two states of which no place suits both. */
function firstApart(fits: readonly (readonly number[])[]): readonly [number, number] | undefined {
  for (const [a, first] of fits.entries())
    for (const [b, second] of fits.entries())
      if (b > a && !first.some((place) => second.includes(place))) return [a, b];
  return undefined;
}
