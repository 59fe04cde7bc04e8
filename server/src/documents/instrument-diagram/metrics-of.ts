import type { DrawingWidth } from '../drawing-sheet.ts';
import { isLowTone } from './layout.ts';
import { type Metrics, NARROW, TIGHT, WIDE, WIDE_OWN } from './metrics.ts';
import type { ControlPicture, PickupBlock, Schematic } from './schematic-picture.ts';

/** The columns that suit what is drawn. */
export function metricsOf({ pickups }: Schematic, size: DrawingWidth): Metrics {
  const leavesByOwn = ({ own, nodes }: PickupBlock) =>
    own !== undefined &&
    isPlain(own.controls) &&
    [...nodes].every(
      ([node, { exits }]) => node === own.to || exits.every(({ to, contact }) => to === 'earth' && !contact),
    );
  if (size !== 'wide') return size === 'narrow' ? NARROW : TIGHT;
  return pickups.length > 0 && pickups.every(leavesByOwn) ? WIDE_OWN : WIDE;
}

/** A volume, and a tone above its line or none. */
function isPlain(controls: readonly ControlPicture[]): boolean {
  const volumes = controls.filter(({ kind }) => kind === 'volume');
  const tones = controls.filter((each) => each.kind === 'tone' && !isLowTone(each, controls));
  return volumes.length === 1 && tones.length <= 1 && volumes.length + tones.length === controls.length;
}
