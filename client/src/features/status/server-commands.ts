import { commands, Disposable } from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';

/** Restarting the server and looking at its log. */
export function activateServerCommands(client: BaseLanguageClient): Disposable {
  return Disposable.from(
    commands.registerCommand('pickup.restartServer', async () => {
      if (client.state === State.Running) await client.stop();
      await client.start();
    }),
    commands.registerCommand('pickup.showOutput', () => client.outputChannel.show(true)),
  );
}
