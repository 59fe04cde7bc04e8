import type { FromView, ToView, ViewState } from '../src/features/bench-view/messages.ts';
import { BenchView } from './bench-view.ts';
import { markWideFace } from './wide-face.ts';

/** What VS Code puts into every webview. */
declare function acquireVsCodeApi(): {
  postMessage(message: FromView): void;
  getState(): ViewState | undefined;
  setState(state: ViewState): void;
};

const editor = acquireVsCodeApi();
const root = document.getElementById('page');
markWideFace(document.body);
if (root) {
  const view = new BenchView(root, {
    send: (message) => editor.postMessage(message),
    remembered: editor.getState(),
    remember: (state) => editor.setState(state),
  });
  window.addEventListener('message', ({ data }: MessageEvent<ToView>) => view.show(data));
  editor.postMessage({ type: 'ready', width: view.width() });
}
