import assert from 'node:assert/strict';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis, Host } from '../../server/src/analysis/analysis-types.ts';
import { compareFacts } from '../../server/src/comparison/compare-facts.ts';
import { stateOf } from '../../server/src/comparison/state-of.ts';
import { completions } from '../../server/src/features/completion.ts';
import { documentLinks } from '../../server/src/features/document-links.ts';
import { hover } from '../../server/src/features/hover.ts';
import { toMarkdown, toPlainText } from '../../server/src/features/rich-text.ts';
import { photographsOf } from '../../server/src/model/photographs.ts';
import { FOLDER, hostOf } from '../support/check-fixture.ts';
import { readCursor } from '../support/marked-text.ts';

const MAIN = `${FOLDER}main.pickup`;

function at(marked: string, host: Partial<Host> = {}): { readonly analysis: Analysis; readonly offset: number } {
  const { text, offset } = readCursor(marked);
  return { analysis: createAnalyser().analyse(MAIN, { ...hostOf({ 'main.pickup': text }), ...host }), offset };
}

const photo = (words: string): string => `instrument juniper "Juniper" {\n  ${words}\n}\n`;

const LEADS = 'photo "photos/heron-leads.jpg" "leads as found"';

describe('photographs', () => {
  it('stand in a pickup, a coil, readings and an instrument, and say of what they are', () => {
    const { analysis } = at(`‸pickup wren {
  photo "a.jpg" "all"
  coil main { photo "b.jpg" "the break" }
  readings found 2026-10-04 { photo "c.png" "the meter" }
  readings "joined" { photo "d.webp" "joints" }
}
instrument juniper { photo "e.jpg" "cavity" }
`);
    const [wren] = analysis.model.pickups;
    const [juniper] = analysis.model.instruments;
    assert.ok(wren && juniper);
    const told = photographsOf(wren).map(({ line, of }) => [line.value.file.value, line.value.caption, of]);
    assert.deepEqual(told, [
      ['a.jpg', 'all', undefined],
      ['b.jpg', 'the break', { coil: 'main' }],
      ['c.png', 'the meter', { readings: 'readings as found 2026-10-04' }],
      ['d.webp', 'joints', { readings: 'readings joined' }],
    ]);
    assert.equal(photographsOf(juniper).length, 1);
  });

  it('belong to the state that they show: `like` does not bring them', () => {
    const { analysis } = at(`‸pickup wren { photo "a.jpg" "all" }\npickup finch like wren {\n}\n`);
    assert.deepEqual(
      analysis.model.pickups.map((each) => photographsOf(each).length),
      [1, 0],
    );
  });

  it('are shown by the hover over their line, with the caption as words and no markup of it', () => {
    const { analysis, offset } = at(photo('photo "photos/heron-leads.jpg" "**le‸ads** <b>"'));
    const text = hover(analysis, offset)?.text ?? [];
    const markdown = toMarkdown(text);
    assert.match(
      markdown,
      /!\[\\\*\\\*leads\\\*\\\* &lt;b\\>\]\(file:\/\/\/bench\/photos\/heron-leads\.jpg\|width=253\)/,
    );
    assert.match(markdown, /JPEG, 4032 × 3024 pixels/);
    assert.match(toPlainText(text), /^\*\*leads/);
  });

  it('that cannot be shown have no picture in the hover, and no link', () => {
    for (const file of ['photos/none.jpg', 'photos/scan.png', 'photos/cut-off.jpg', '../x.jpg']) {
      const { analysis, offset } = at(photo(`photo "${file}" "le‸ads"`));
      assert.doesNotMatch(toMarkdown(hover(analysis, offset)?.text ?? []), /!\[/, file);
      assert.deepEqual(documentLinks(analysis), [], file);
    }
  });

  it('are links between the quotes of their path', () => {
    const { analysis } = at(photo(`${LEADS}‸`));
    const [link] = documentLinks(analysis);
    assert.ok(link);
    assert.equal(analysis.text.slice(link.span.start, link.span.end), 'photos/heron-leads.jpg');
    assert.equal(link.target, `${FOLDER}photos/heron-leads.jpg`);
  });

  it('are offered by their paths while one is typed, those that no line names first', () => {
    const near = { specs: [], photos: ['b.jpg', 'photos/a.jpg'], curves: [] };
    for (const [marked, inserted] of [
      ['photo "‸"', ['b.jpg', 'photos/a.jpg']],
      ['photo "photos/‸" "x"', ['b.jpg', 'photos/a.jpg']],
      ['photo ‸', ['"b.jpg"', '"photos/a.jpg"']],
      ['photo "b.jpg" "x"\n  photo "‸"', ['photos/a.jpg', 'b.jpg']],
    ] as const) {
      const { analysis, offset } = at(photo(marked));
      const { items } = completions(analysis, offset, near);
      const sorted = [...items].sort((a, b) => (a.sort < b.sort ? -1 : 1));
      assert.deepEqual(
        sorted.map(({ text, label }) => text ?? label),
        inserted,
        marked,
      );
    }
    const { analysis, offset } = at(photo('photo "b.jpg" "‸"'));
    assert.deepEqual(completions(analysis, offset, near).items, []);
  });

  it('not read yet are waited for, and nothing is said of them', () => {
    const { analysis } = at(photo(`${LEADS}‸`), { photo: () => undefined });
    assert.deepEqual(analysis.pending, [`${FOLDER}photos/heron-leads.jpg`]);
    assert.deepEqual(analysis.findings, []);
  });

  it('behind a link that leaves the workspace are outside', () => {
    const { analysis } = at(photo(`${LEADS}‸`), { isInside: (uri) => !uri.includes('/photos/') });
    assert.deepEqual(
      analysis.findings.map(({ code }) => code),
      ['photo/outside'],
    );
  });

  it('missing have the nearest name as a fix, and an acceptance keeps them', () => {
    const photosNear = () => ['heron-leads.jpg', 'below/heron-laeds.jpg'];
    const { analysis } = at(photo('photo "photos/heron-laeds.jpg" "leads as found"‸'), { photosNear });
    const [finding] = analysis.findings;
    assert.ok(finding);
    assert.deepEqual(
      analysis.verifiedFixes(finding).map(({ title }) => title),
      ['Change to "photos/heron-leads.jpg"'],
    );
    const accepted = at(photo('accept photo/missing "lost with the phone"\n  photo "lost.jpg" "x"‸')).analysis;
    assert.deepEqual(
      accepted.findings.map(({ code, severity }) => [code, severity]),
      [['photo/missing', 'information']],
    );
  });

  it('are facts where two states are compared', () => {
    const [was, is] = [at(photo('‸')).analysis, at(photo(`${LEADS}‸`)).analysis];
    const { changes } = compareFacts(stateOf(was).blocks, stateOf(is).blocks);
    assert.match(JSON.stringify(changes), /photo \\"photos\/heron-leads\.jpg\\" \\"leads as found\\"/);
  });
});
