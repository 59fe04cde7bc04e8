import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import type { BenchViewInterface } from '../../client/src/features/bench-view/bench-view-control.ts';
import { closeAll, eventually, extensionInterface, inWords, openSample, openText, replace } from './in-editor.ts';

describe('the bench view', () => {
  let benchView: BenchViewInterface;
  before(async () => {
    await openSample('cinder-bridge.pickup');
    ({ benchView } = await extensionInterface());
  });
  afterEach(closeAll);

  const openBenchView = async (sample: string): Promise<vscode.TextEditor> => {
    const editor = await openSample(sample);
    await vscode.commands.executeCommand('pickup.openBenchViewToSide');
    return editor;
  };
  const shown = (wanted: (drawing: NonNullable<ReturnType<BenchViewInterface['shown']>>['drawing']) => boolean) =>
    eventually(() => {
      const drawing = benchView.shown()?.drawing;
      return drawing && wanted(drawing) ? drawing : undefined;
    });

  it('opens beside the text and holds the parts of the pickup', async () => {
    await openBenchView('cinder-bridge.pickup');
    const { svg, table, title } = await shown((drawing) => drawing.svg !== undefined);
    assert.match(svg ?? '', /<svg [^>]*role="img"/);
    assert.match(svg ?? '', /data-part="coil:/);
    assert.match(svg ?? '', /data-part="lead:/);
    assert.notEqual(table?.rows.length ?? 0, 0);
    assert.notEqual(title, undefined);
    assert.ok(vscode.window.tabGroups.all.length > 1, 'it does not stand beside the text');
  });

  it('a click on a part goes to its line', async () => {
    const { document } = await openBenchView('cinder-bridge.pickup');
    const { parts } = await shown((drawing) => drawing.svg !== undefined);
    const coil = parts.find((part) => /^coil:[^.]+$/.test(part));
    assert.ok(coil);
    await benchView.receive({ type: 'reveal', part: coil });
    const editor = vscode.window.activeTextEditor;
    assert.equal(editor?.document.uri.toString(), document.uri.toString());
    assert.match(document.lineAt(editor.selection.active.line).text, /coil/);
  });

  it('follows the text: a changed name is drawn', async () => {
    const editor = await openBenchView('fennel-bridge.pickup');
    await shown((drawing) => drawing.title === 'Fennel, bridge, tapped');
    await replace(editor, '"Fennel, bridge, tapped"', '"Fennel, rewound"');
    const { svg } = await shown((drawing) => drawing.title === 'Fennel, rewound');
    assert.match(svg ?? '', /Fennel, rewound/);
  });

  it('follows the editor to another file', async () => {
    await openBenchView('fennel-bridge.pickup');
    await shown((drawing) => drawing.file === 'fennel-bridge.pickup');
    await openSample('cinder-bridge.pickup');
    await shown((drawing) => drawing.file === 'cinder-bridge.pickup' && drawing.svg !== undefined);
  });

  it('where the text is broken, the drawing stays and the line is named', async () => {
    const editor = await openBenchView('fennel-bridge.pickup');
    const { svg } = await shown((drawing) => drawing.svg !== undefined);
    await replace(editor, 'wound counterclockwise', 'wound counterclockwise (');
    const broken = await shown((drawing) => drawing.broken !== undefined);
    const line = editor.document
      .getText()
      .split('\n')
      .findIndex((each) => each.includes('counterclockwise ('));
    assert.equal(broken.broken?.line, line);
    assert.notEqual(broken.svg, undefined);
    await replace(editor, 'wound counterclockwise (', 'wound counterclockwise');
    const mended = await shown((drawing) => drawing.broken === undefined);
    assert.equal(mended.svg, svg);
  });

  it('a file of parts shows them, and who in the workspace uses each', async () => {
    await openBenchView('parts/stock.pickup');
    const { svg, subject } = await shown((drawing) => drawing.file === 'stock.pickup');
    assert.equal(subject?.kind, 'parts');
    assert.match(svg ?? '', /data-part="bobbin:screw-six"/);
    const { rows } = await eventually(() => benchView.section('usage'));
    const users = rows.find(({ part }) => part.endsWith(' screw-six'))?.usedBy ?? [];
    // A file that is not open.
    assert.ok(
      users.some((user) => user.startsWith('Ottlewick, neck')),
      users.join(', '),
    );
  });

  it('a build that is proposed is written into the spec, and the target is reached then', async () => {
    const { document } = await openBenchView('knapweed-neck.pickup');
    const { builds } = await eventually(() => {
      const proposals = benchView.section('proposals');
      return proposals && proposals.builds.length > 0 ? proposals : undefined;
    });
    assert.ok(builds.length > 0);
    await benchView.receive({ type: 'use build', index: 0 });
    await eventually(() => (/\n {4}spool RYD-W9\n {4}turns \d_\d+\n/.test(document.getText()) ? true : undefined));
    await eventually(() => {
      const proposals = benchView.section('proposals');
      const reached = inWords({ en: 'reached', de: 'erreicht' });
      const isReached = proposals?.target?.rows.every(([, , verdict]) => verdict === reached);
      return isReached && proposals?.builds.length === 0 ? true : undefined;
    });
  });

  it('an empty file invites, and nothing of the file before is left; a pickup is begun in it', async () => {
    await openBenchView('fennel-bridge.pickup');
    await shown((drawing) => drawing.svg !== undefined);
    const { document } = await openText('blank.pickup', '');
    const { svg, findings, invitation } = await shown((drawing) => drawing.file === 'blank.pickup');
    assert.equal(svg, undefined);
    assert.deepEqual(findings, []);
    assert.match(invitation?.says ?? '', inWords({ en: /empty/, de: /leer/ }));
    await benchView.receive({ type: 'begin', index: 0 });
    await eventually(() => (/^pickup [^{]+\{\n/.test(document.getText()) ? true : undefined));
    await shown((drawing) => drawing.svg !== undefined && drawing.file === 'blank.pickup');
  });
});
