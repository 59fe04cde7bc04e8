import type { Connection } from 'vscode-languageserver';
import { COLOUR_CODES, COLOURS } from '../../../grammar/values/iec60757.ts';
import { LEAD_COLOURS } from '../documents/theme.ts';
import { newSpec } from '../features/new-spec.ts';
import { STARTER_SHOP } from '../features/starter-shop.ts';
import type { Bobbin } from '../model/bobbin.ts';
import type { NamedThing } from '../model/model.ts';
import { answering, type Report } from './guard.ts';
import {
  NEW_CHOICES_REQUEST,
  NEW_SPEC_REQUEST,
  type NewChoicesParams,
  type NewChoicesResult,
  type NewSpecParams,
  type NewSpecResult,
  PROTOCOL_VERSION,
  type Shelf,
} from './protocol.ts';
import type { Session } from './session.ts';

/** What may be answered to the questions of a new spec, and the spec that follows from the answers. */
export function serveNew(
  connection: Connection,
  { session, report }: { readonly session: Session; readonly report: Report },
): void {
  const colours = COLOUR_CODES.map((code) => ({ code, name: COLOURS[code], swatch: LEAD_COLOURS[code] }));
  connection.onRequest(
    NEW_CHOICES_REQUEST,
    answering<NewChoicesParams, NewChoicesResult>(
      report,
      'choices for a new spec',
      { protocol: PROTOCOL_VERSION, colours, shelves: [] },
      ({ uris }) => ({ protocol: PROTOCOL_VERSION, colours, shelves: uris.flatMap((uri) => shelfOf(session, uri)) }),
    ),
  );
  connection.onRequest(
    NEW_SPEC_REQUEST,
    answering<NewSpecParams, NewSpecResult>(
      report,
      'new spec',
      { protocol: PROTOCOL_VERSION, files: [], problem: 'The server’s output says why there is none.' },
      ({ answers }) => {
        if (answers === undefined) return { protocol: PROTOCOL_VERSION, files: STARTER_SHOP };
        const made = newSpec(answers);
        return 'problem' in made
          ? { protocol: PROTOCOL_VERSION, files: [], problem: made.problem }
          : { protocol: PROTOCOL_VERSION, files: [made] };
      },
    ),
  );
}

/** What a file brings to a spec that uses it; none where it has no bobbin or no wire. */
function shelfOf(session: Session, uri: string): readonly Shelf[] {
  const analysis = session.analysisOfFile(uri);
  if (analysis === undefined) return [];
  const names = (kind: 'wire' | 'spool' | 'magnet') => analysis.namesInScope(kind).map(({ name }) => name);
  const bobbins = analysis
    .namesInScope('bobbin')
    .filter(isBobbin)
    .map(({ name, pole }) => ({ name, ownMagnets: isMagnetic(pole?.value) }));
  const shelf: Shelf = { uri, bobbins, wires: names('wire'), spools: names('spool'), magnets: names('magnet') };
  return bobbins.length > 0 && shelf.wires.length + shelf.spools.length > 0 ? [shelf] : [];
}

const isBobbin = (thing: NamedThing): thing is Bobbin => 'pole' in thing;

const isMagnetic = (pole: NonNullable<Bobbin['pole']>['value'] | undefined): boolean =>
  pole !== undefined && pole !== 'none' && pole.material !== 'steel';
