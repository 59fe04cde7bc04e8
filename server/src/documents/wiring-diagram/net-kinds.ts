import { leadLetters } from '../../../../grammar/values/lead-name.ts';
import { COIL_ENDS } from '../../model/coil.ts';
import type { PickupNetlist } from '../../model/netlist.ts';
import type { Language } from '../../words/languages/language.ts';
import type { MistakenEnd } from './mistake.ts';
import type { NetPicture } from './picture.ts';

/** What each net is to the reader: hot, ground, a link, a lead led out or left free, or a lead that somebody forgot. */
export function netKinds(
  netlist: PickupNetlist,
  mistaken: ReadonlyMap<string, MistakenEnd>,
  t: Language,
): readonly NetPicture[] {
  return netlist.nets.map(({ index, nodes }): NetPicture => {
    const id = `net${index}`;
    if (index === netlist.hot && index === netlist.ground)
      return { id, kind: 'hot', label: t('hot'), detail: t('ground') };
    if (index === netlist.hot) return { id, kind: 'hot', label: t('hot') };
    if (index === netlist.ground) return { id, kind: 'ground', label: t('ground') };
    if (nodes.some((node) => node.startsWith('tap:'))) return { id, kind: 'out', label: t('tap') };
    const ends = endsAt(netlist, index);
    if (isInside(netlist, nodes)) return { id, kind: 'unseen', label: t('inside unknown') };
    if (ends.length > 1 || nodes.some((node) => node.startsWith('part:'))) {
      const letters = nodes.flatMap((node) =>
        node.startsWith('lead:') ? [leadLetters(node.slice('lead:'.length))] : [],
      );
      // What a mistake has taken elsewhere is not in the link as it stands.
      const whole = ends.every((end) => mistaken.get(end)?.net === undefined);
      const detail = whole && letters.length > 1 ? letters.join(' + ') : undefined;
      return { id, kind: 'link', label: t('link'), detail };
    }
    return netlist.free.has(index)
      ? { id, kind: 'free', label: t('taped off') }
      : { id, kind: 'open', label: t('joined to nothing') };
  });
}

/** Where the coils of a closed pickup are put one behind the other, since their order makes no difference outside. */
const isInside = ({ windings }: PickupNetlist, nodes: readonly string[]): boolean =>
  nodes.length > 1 &&
  nodes.every((node) => windings.some(({ coil, unseen }) => unseen && node.startsWith(`coil:${coil.name}.`)));

function endsAt({ windings }: PickupNetlist, net: number): readonly string[] {
  return windings.flatMap((winding) =>
    COIL_ENDS.filter((end) => winding[end] === net).map((end) => `${winding.coil.name}.${end}`),
  );
}
