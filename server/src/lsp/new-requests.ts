import { COLOUR_CODES, COLOURS } from '../../../grammar/values/iec60757.ts';
import { given } from '../../../grammar/values/present.ts';
import { LEAD_COLOURS } from '../documents/theme.ts';
import { newSpec } from '../features/new-spec.ts';
import { STARTER_SHOP } from '../features/starter-shop.ts';
import type { Bobbin } from '../model/bobbin.ts';
import type { AnswerOwn } from './guard.ts';
import {
  NEW_CHOICES_REQUEST,
  NEW_SPEC_REQUEST,
  type NewChoicesParams,
  type NewChoicesResult,
  type NewSpecParams,
  type NewSpecResult,
  type Shelf,
} from './protocol.ts';
import type { Session } from './session.ts';

/** What may be answered to the questions of a new spec, and the spec that follows from the answers. */
export function serveNew(own: AnswerOwn, session: Session): void {
  const colours = COLOUR_CODES.map((code) => ({ code, name: COLOURS[code], swatch: LEAD_COLOURS[code] }));
  own<NewChoicesParams, NewChoicesResult>(
    NEW_CHOICES_REQUEST,
    'choices for a new spec',
    { colours, shelves: [] },
    ({ uris }) => ({ colours, shelves: uris.flatMap((uri) => shelfOf(session, uri)) }),
  );
  const why = 'The server’s output says why there is none.';
  own<NewSpecParams, NewSpecResult>(NEW_SPEC_REQUEST, 'new spec', { files: [], problem: why }, ({ answers }) => {
    if (answers === undefined) return { files: STARTER_SHOP };
    const made = newSpec(answers);
    return 'problem' in made ? { files: [], problem: made.problem } : { files: [made] };
  });
}

/** What a file brings to a spec that uses it; none where it has no bobbin or no wire. */
function shelfOf(session: Session, uri: string): readonly Shelf[] {
  const analysis = session.analysisOfFile(uri);
  if (analysis === undefined) return [];
  const names = (kind: 'wire' | 'spool' | 'magnet') => analysis.namesInScope(kind).map(({ name }) => name);
  const bobbins = analysis.namesInScope('bobbin').map(({ name, pole, poles }) => ({
    name,
    ownMagnets: isMagnetic(pole?.value),
    ...given({ poles: poles?.value.count }),
  }));
  const shelf: Shelf = { uri, bobbins, wires: names('wire'), spools: names('spool'), magnets: names('magnet') };
  return bobbins.length > 0 && shelf.wires.length + shelf.spools.length > 0 ? [shelf] : [];
}

const isMagnetic = (pole: NonNullable<Bobbin['pole']>['value'] | undefined): boolean =>
  pole !== undefined && pole !== 'none' && pole.material !== 'steel';
