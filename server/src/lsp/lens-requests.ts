import type { CancellationToken, CodeLens, Connection } from 'vscode-languageserver';
import {
  codeLenses,
  LENS_KINDS,
  type LensKind,
  type LensSubject,
  lensNumbers,
  usedByWords,
} from '../features/code-lens.ts';
import { namedThere } from '../features/name-at.ts';
import { references } from '../features/references.ts';
import { fileKey, fileName } from './file-key.ts';
import { offsetFrom } from './from-protocol.ts';
import { answering } from './guard.ts';
import type { Served } from './served.ts';
import type { Opened } from './session.ts';
import { toRange } from './to-protocol.ts';
import { namedByKey } from './workspace.ts';

/** Where the lenses stand is said at once; what they say only when they come into sight, and once the hands rest. */
export function serveLenses(
  connection: Connection,
  { report, abilities, settings, rest, workspace }: Served,
  opened: (uri: string, token: CancellationToken) => Promise<Opened | undefined>,
): void {
  connection.onCodeLens(
    answering(report, 'code lenses', [], async ({ textDocument }, token) => {
      const found = settings().codeLens ? await opened(textDocument.uri, token) : undefined;
      if (!found) return [];
      const { document, analysis } = found;
      return codeLenses(analysis).flatMap(({ kind, of, span }): readonly CodeLens[] => {
        const range = toRange(document, span);
        const isOpening = kind === 'bench view' || kind === 'cards';
        if (isOpening && !abilities.isOurs) return [];
        if (kind === 'bench view')
          return [
            {
              range,
              command: { title: 'bench view', command: 'pickup.openBenchViewToSide', arguments: [range.start.line] },
            },
          ];
        if (kind === 'cards') return [{ range, command: { title: 'cards', command: 'pickup.printCards' } }];
        return [{ range, data: { uri: document.uri, kind, of } satisfies LensData }];
      });
    }),
  );
  const title = async (lens: CodeLens, token: CancellationToken): Promise<string> => {
    const data = lensData(lens.data);
    await rest();
    const found = data && !token.isCancellationRequested ? await opened(data.uri, token) : undefined;
    if (!data || !found) return '';
    const { document, analysis } = found;
    if (data.kind === 'numbers') return lensNumbers(analysis, data.of) ?? '';
    const named = namedThere(analysis, offsetFrom(document, lens.range?.start));
    if (!named) return '';
    const among = await workspace.mentionsOf(named);
    const places = references(namedByKey(named), { among, declaration: false }).map(({ uri }) => uri);
    return usedByWords([...new Set(places)].filter((uri) => uri !== fileKey(document.uri)).map(fileName));
  };
  connection.onCodeLensResolve(async (lens, token) => {
    const answer = answering<CodeLens, CodeLens>(report, 'code lens', titled(lens, ''), async () =>
      titled(lens, await title(lens, token)),
    );
    return answer(lens, token);
  });
}

interface LensData {
  readonly uri: string;
  readonly kind: LensKind;
  readonly of: LensSubject;
}

/** What a client sends back is what it was given, or anything. */
function lensData(sent: unknown): LensData | undefined {
  const { uri, kind, of }: { uri?: unknown; kind?: unknown; of?: unknown } = Object(sent ?? {});
  const { kind: what, name }: { kind?: unknown; name?: unknown } = Object(of ?? {});
  const lens = LENS_KINDS.find((each) => each === kind);
  if (typeof uri !== 'string' || lens === undefined || typeof name !== 'string') return undefined;
  return what === 'pickup' || what === 'instrument' ? { uri, kind: lens, of: { kind: what, name } } : undefined;
}

const titled = ({ range }: CodeLens, title: string): CodeLens => ({ range, command: { title, command: '' } });
