import { nearest } from '../../../grammar/src/nearest.ts';
import type { ModelProblem } from './model.ts';
import type { Place } from './place.ts';

/** A name that nothing declares; `right` is the one that is offered in its place. */
export const unknownName = (message: string, place: Place, right: string | undefined): ModelProblem => ({
  code: 'name/unknown',
  message,
  place,
  ...(right
    ? { fixes: [{ title: `Change to \`${right}\``, edits: [{ place, newText: right }], unsure: true }] }
    : { action: 'Declare it, or name one that is declared.' }),
});

/** The same, with the nearest of the names that are known. */
export const unknownAmong = (names: readonly string[], name: string, place: Place, message: string): ModelProblem =>
  unknownName(message, place, nearest(name, names));
