import { given, present, type Some } from '../../../grammar/values/present.ts';
import type { Pickup } from '../model/pickup.ts';
import { insertLineAfter } from './edits.ts';
import type { Edit, Remedy } from './finding.ts';
import { inEnglish, inWords, type Worded } from './say.ts';

/** A change of the build; `undefined` where one of its edits cannot be made, or where there is none. `preferred`: what people would do first. */
export function remedy(title: Worded, edits: Some<Edit>, preferred = false): Remedy | undefined {
  const all = [edits].flat();
  const made = present(all);
  return made.length > 0 && made.length === all.length
    ? { title: inEnglish(title), ...inWords(title), edits: made, kind: 'build', preferred }
    : undefined;
}

/** A correction of the writing, true by itself. */
export const textRemedy = (title: Worded, edits: readonly Edit[], preferred?: true): Remedy => ({
  title: inEnglish(title),
  ...inWords(title),
  edits,
  kind: 'text',
  ...given({ preferred }),
});

export function meantRemedy({ hookup }: Pickup): Remedy | undefined {
  const lastJoint = hookup?.joints.at(-1);
  return remedy((t) => t('It is meant: say `on purpose`'), lastJoint && insertLineAfter(lastJoint.place, 'on purpose'));
}
