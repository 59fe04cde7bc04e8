import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, openText } from './in-editor.ts';

const SPEC = `use "parts/wire.pickup"

pickup measured "Measured" {
  coil main {
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
`;

describe('measuring over frequency in the editor', () => {
  afterEach(closeAll);

  it('saves the test signal; a recording of it becomes a curve, and the spec names it', async () => {
    const { document } = await openText('measured.pickup', SPEC);
    const beside = (path: string) => vscode.Uri.joinPath(document.uri, '..', path);
    // One channel against the signal as it was played: what leaves the output goes straight back in.
    const recording = beside('measured-recording.wav');
    await vscode.commands.executeCommand('pickup.saveTestSignal', { target: recording });
    const target = beside('sweeps/measured.csv');
    const given = { recordings: [recording], target, setUp: 'excited over 1 kohm' };
    await vscode.commands.executeCommand('pickup.curveFromRecording', given);
    const text = new TextDecoder().decode(await vscode.workspace.fs.readFile(target));
    assert.match(text, /^# made of measured-recording\.wav\n/);
    assert.match(text, /\nfrequency Hz,level dB,level sd dB\n25\.000,-12\.0/);
    assert.match(
      document.getText(),
      /readings \{\n {4}sweep hot to ground "sweeps\/measured\.csv" excited over 1 kohm\n {2}\}/,
    );
    for (const made of [recording, target, document.uri]) {
      await document.save();
      await vscode.workspace.fs.delete(made);
    }
  });
});
