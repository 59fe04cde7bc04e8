import type { WorkspaceEdit } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { Plan } from '../../../../server/src/lsp/protocol.ts';

/** An edit of ours as the editor takes it. */
export function editorsEdit(client: BaseLanguageClient, edit: Plan['edit']): Promise<WorkspaceEdit> {
  const changes = Object.fromEntries(Object.entries(edit.changes ?? {}).map(([uri, edits]) => [uri, [...edits]]));
  return client.protocol2CodeConverter.asWorkspaceEdit({ changes });
}
