/** The metal about a pickup's coils as shorted turns: covers, baseplates and solid poles. */
import type { Pickup } from '../model/pickup.ts';
import { reducedMetal } from '../physics/eddies/metal-by-coils.ts';
import { estimateOf } from '../quantities/estimate.ts';
import type { EddyTurn, PickupEddies } from './coil-magnetics.ts';
import { lossesOf, screeningOf } from './eddy-losses.ts';
import { magneticParts } from './magnetic-parts.ts';
import { type CoilGroup, groupsOf, poleRow, sheetsOver, stringOver, type WoundCoil } from './metal-places.ts';

export function pickupEddies(pickup: Pickup, wound: readonly WoundCoil[]): PickupEddies {
  const groups = groupsOf(wound).map((group) => eddiesOfGroup(group, pickup));
  const lossy = groups.filter(({ turns }) => turns.length > 0);
  const [first] = lossy;
  if (!first) return NOTHING;
  const polesShare = lossy.reduce((sum, each) => sum + each.polesShare, 0) / lossy.length;
  const { sheets, tabulated } = first;
  const alnicoUnderSheet = sheets && lossy.some(({ alnico }) => alnico);
  return {
    turns: lossy.flatMap(({ turns }) => turns),
    losses: lossesOf(pickup, { sheets, tabulated, polesShare }),
    screening: screeningOf(pickup, alnicoUnderSheet ? 'alnicoUnderSheet' : 'usual'),
  };
}

const NOTHING: PickupEddies = {
  turns: [],
  losses: estimateOf(1, { basis: 'computed' }),
  screening: estimateOf(1, { basis: 'computed' }),
};

/** Beneath this a magnet's recoil permeability lies, far below steel's. */
const ALNICO_AT_MOST = 10;

function eddiesOfGroup({ coils, sideBySide }: CoilGroup, pickup: Pickup) {
  const sheets = sheetsOver({ coils, sideBySide }, pickup);
  const poles = coils.flatMap(poleRow);
  const magnetic = magneticParts(pickup);
  const { loops, polesShare } = reducedMetal({
    coils: coils.map(({ placed }) => placed),
    sheets,
    sideBySide,
    poles,
    strings: coils.map(stringOver),
    heard: coils.map(({ coil }) => coil.below === undefined && coil.serves?.value !== 'none'),
    magnetic,
  });
  const turns = loops.map(({ cornerHz, couplings, drives }): EddyTurn => {
    const beside = coils.map(
      ({ coil }, index) => [coil, { coupling: couplings[index] ?? 0, drive: drives[index] ?? 0 }] as const,
    );
    return { cornerHz, beside: new Map(beside) };
  });
  const alnico = poles.some(({ metal }) => metal.relativePermeability < ALNICO_AT_MOST);
  return { turns, polesShare, alnico, sheets: sheets.length > 0, tabulated: magnetic.length > 0 };
}
