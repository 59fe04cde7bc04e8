import type { language } from '../../../grammar/src/schema/index.ts';
import type { Place } from './place.ts';
import type { Plain } from './reading.ts';

/** `material`: a grade, such as `alnico-5`. `size`: length x width x thickness; magnetised across the width. */
export interface Magnet extends Plain<typeof language.magnet> {
  readonly name: string;
  readonly place: Place;
}
