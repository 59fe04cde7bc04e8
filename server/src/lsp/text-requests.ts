import type {
  ColorInformation,
  ColorPresentation,
  Connection,
  SelectionRange,
  ServerCapabilities,
  TypeHierarchyItem,
} from 'vscode-languageserver';
import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import { LEAD_COLOURS } from '../documents/theme.ts';
import { formattingAfter, formattingOf } from '../features/formatting.ts';
import { leadColours } from '../features/lead-colours.ts';
import { madeFrom, madeFromIt, PIECE_KINDS, type Piece, pieceAt, pieceNamed } from '../features/like-hierarchy.ts';
import { linkedEditing } from '../features/linked-editing.ts';
import { references } from '../features/references.ts';
import { selectionRanges } from '../features/selection-ranges.ts';
import { fileKey } from './file-key.ts';
import { offsetFrom, spanFrom } from './from-protocol.ts';
import { answering } from './guard.ts';
import { filesMentioning } from './index-queries.ts';
import type { About, Served } from './served.ts';
import * as to from './to-protocol.ts';
import { namedByKey } from './workspace.ts';

export const textCapabilities: ServerCapabilities = {
  colorProvider: true,
  selectionRangeProvider: true,
  documentRangeFormattingProvider: true,
  documentOnTypeFormattingProvider: { firstTriggerCharacter: '}', moreTriggerCharacter: ['\n'] },
  linkedEditingRangeProvider: true,
  typeHierarchyProvider: true,
};

/** What an editor asks about a piece of the text: its colours, its layout, what is selected and typed together with it, what it is made from. */
export function serveText(connection: Connection, served: Served, about: About): void {
  const { workspace } = served;
  connection.onDocumentColor(
    about('colours', [], ({ document, analysis }) =>
      leadColours(analysis).map(
        ({ span, colour }): ColorInformation => ({
          range: to.toRange(document, span),
          color: to.toColor(LEAD_COLOURS[colour.base]),
        }),
      ),
    ),
  );
  // A lead keeps the name that it has, whatever is chosen; its letters stand beside.
  connection.onColorPresentation(
    about('colour', [], ({ document, analysis }, { range }) => {
      const { start } = spanFrom(document, range);
      return leadColours(analysis).flatMap(({ span, colour }): ColorPresentation[] => {
        if (span.start !== start) return [];
        const newText = analysis.text.slice(span.start, span.end);
        return [
          {
            label: `${colour.code} ${colour.names.join(' and ')}`,
            textEdit: to.toTextEdit(document, { span, newText }),
          },
        ];
      });
    }),
  );
  connection.onSelectionRanges(
    about('selection', [], ({ document, analysis }, { positions }) =>
      positions.map((position): SelectionRange => {
        const whole: SelectionRange = { range: to.toRange(document, { start: 0, end: analysis.text.length }) };
        return selectionRanges(analysis, offsetFrom(document, position)).reduceRight<SelectionRange>(
          (parent, span, index, all) =>
            index === all.length - 1 ? whole : { range: to.toRange(document, span), parent },
          whole,
        );
      }),
    ),
  );
  connection.onDocumentRangeFormatting(
    about('formatting', [], ({ document, analysis }, { range }) =>
      formattingOf(analysis, spanFrom(document, range)).map((edit) => to.toTextEdit(document, edit)),
    ),
  );
  connection.onDocumentOnTypeFormatting(
    about('formatting', [], ({ document, analysis }, { position, ch }) =>
      formattingAfter(analysis, offsetFrom(document, position), ch).map((edit) => to.toTextEdit(document, edit)),
    ),
  );
  connection.languages.onLinkedEditingRange(
    about('linked names', null, ({ document, analysis }, { position }) => {
      const found = linkedEditing(analysis, offsetFrom(document, position));
      if (!found) return null;
      // A coil may stand in an instrument of another file, which is not typed along.
      const key = fileKey(document.uri);
      const isElsewhere = filesMentioning(workspace.files, key, found.name).some((file) => file.key !== key);
      return isElsewhere ? null : { ranges: found.spans.map((span) => to.toRange(document, span)) };
    }),
  );
  serveHierarchy(connection, served, about);
}

function serveHierarchy(connection: Connection, { session, workspace, report }: Served, about: About): void {
  const itemOf = ({ kind, name, detail, span, nameSpan }: Piece): TypeHierarchyItem[] => {
    const document = session.files.document(span.uri);
    if (!document) return [];
    return [
      {
        name,
        kind: to.toSymbolKind(kind),
        ...(detail === undefined ? {} : { detail }),
        uri: document.uri,
        range: to.toRange(document, span),
        selectionRange: to.toRange(document, nameSpan),
        data: kind,
      },
    ];
  };
  /** Works on a file that may not be open, and lets it go again. */
  const within = <T>(uri: string, none: T, answer: (analysis: Analysis) => T): T => {
    const analysis = session.analysisOfFile(uri);
    const found = analysis ? answer(analysis) : none;
    workspace.release(uri);
    return found;
  };
  const declaredBy = ({ uri, selectionRange }: TypeHierarchyItem): FileSpan | undefined => {
    const document = session.files.document(uri);
    return document && { uri: document.uri, ...spanFrom(document, selectionRange) };
  };
  const itemAt = (at: FileSpan): TypeHierarchyItem[] =>
    within(at.uri, [], (analysis) => {
      const piece = pieceAt(analysis, { ...at, uri: analysis.uri });
      return piece ? itemOf(piece) : [];
    });
  connection.languages.typeHierarchy.onPrepare(
    about('like', null, ({ document, analysis }, { position }) => {
      const at = pieceNamed(analysis, offsetFrom(document, position));
      const items = at ? itemAt(at) : [];
      return items.length > 0 ? items : null;
    }),
  );
  connection.languages.typeHierarchy.onSupertypes(
    answering(report, 'made from', null, ({ item }) => {
      const declared = declaredBy(item);
      const from = declared && within(declared.uri, undefined, (analysis) => madeFrom(analysis, declared));
      return from ? itemAt(from) : [];
    }),
  );
  connection.languages.typeHierarchy.onSubtypes(
    answering(report, 'made like it', null, async ({ item }) => {
      const target = declaredBy(item);
      const kind = PIECE_KINDS.find((each) => each === item.data);
      if (!target || !kind) return [];
      const named = { kind, name: item.name, target };
      const places = references(namedByKey(named), { among: await workspace.mentionsOf(named), declaration: false });
      return [...new Set(places.map(({ uri }) => uri))].flatMap((uri) =>
        within(uri, [], (analysis) => madeFromIt(analysis, target).flatMap(itemOf)),
      );
    }),
  );
}
