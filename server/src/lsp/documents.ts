import type {
  DidChangeTextDocumentParams,
  DidCloseTextDocumentParams,
  DidOpenTextDocumentParams,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { fileKey } from './file-key.ts';

/** The documents that the editor has open, by the key of their file. */
export interface Documents {
  get(uri: string): TextDocument | undefined;
  all(): Iterable<TextDocument>;
  open(params: DidOpenTextDocumentParams): TextDocument;
  /** `undefined` where no such document is open: a change of nothing is no change. */
  change(params: DidChangeTextDocumentParams): TextDocument | undefined;
  close(params: DidCloseTextDocumentParams): TextDocument | undefined;
}

export function createDocuments(): Documents {
  const open = new Map<string, TextDocument>();
  return {
    get: (uri) => open.get(fileKey(uri)),
    all: () => open.values(),
    open: ({ textDocument: { uri, languageId, version, text } }) => {
      const document = TextDocument.create(uri, languageId, version, text);
      open.set(fileKey(uri), document);
      return document;
    },
    change: ({ textDocument: { uri, version }, contentChanges }) => {
      const document = open.get(fileKey(uri));
      return document && TextDocument.update(document, contentChanges, version ?? document.version + 1);
    },
    close: ({ textDocument: { uri } }) => {
      const document = open.get(fileKey(uri));
      open.delete(fileKey(uri));
      return document;
    },
  };
}
