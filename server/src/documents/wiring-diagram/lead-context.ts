import type { SvgNode } from '../svg.ts';
import type { PickupPicture } from './picture.ts';
import type { Rail } from './rails.ts';
import type { Layout } from './rows.ts';
import type { Metrics, Sheet } from './sheet.ts';

/** What all that draws leads has at hand. */
export interface LeadContext {
  readonly picture: PickupPicture;
  readonly layout: Layout;
  readonly metrics: Metrics;
  readonly sheet: Sheet;
  readonly rails: ReadonlyMap<string, Rail>;
  /** Joints, arrows and marks, which lie over the leads. */
  readonly over: SvgNode[];
}
