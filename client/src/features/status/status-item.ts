import { type Disposable, LanguageStatusSeverity, languages } from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import { documentSelector } from '../../client-options.ts';
import { t } from '../words.ts';

/** One language status item: silent while all is well, with the way out where it is not. */
export function activateStatusItem(client: BaseLanguageClient): Disposable {
  const item = languages.createLanguageStatusItem('pickup.server', documentSelector);
  item.name = 'Pickup Spec';
  const show = (state: State): void => {
    const isDown = state === State.Stopped || state === State.StartFailed;
    item.text = isDown
      ? t('Not checking: the server has stopped')
      : state === State.Starting
        ? t('Starting')
        : t('Checking while you type');
    item.severity = isDown ? LanguageStatusSeverity.Error : LanguageStatusSeverity.Information;
    item.command = isDown
      ? { command: 'pickup.restartServer', title: t('Start it again') }
      : { command: 'pickup.showOutput', title: t('Show its log') };
    item.busy = state === State.Starting;
  };
  show(client.state);
  const listening = client.onDidChangeState(({ newState }) => show(newState));
  return {
    dispose: () => {
      listening.dispose();
      item.dispose();
    },
  };
}
