import assert from 'node:assert/strict';
import { colouredRuns } from '../../grammar/src/coloured-text.ts';
import { explanationOf } from '../../server/src/checks/explanation.ts';
import { codes } from '../../server/src/checks/pages.ts';
import { type ExplanationBlock, explanationPage } from '../../server/src/features/explanation-page.ts';

describe('the page of a finding, for showing', () => {
  it('holds all that its Markdown says, of every page', () => {
    for (const code of codes) {
      const page = explanationPage(code);
      assert.ok(page, code);
      const said = page.sections.map(({ heading, blocks }) => `## ${heading}\n\n${blocks.map(asMarkdown).join('')}`);
      const whole = `# ${code}\n\n${page.summary}\n\n${said.join('')}`;
      assert.equal(bare(whole), bare(explanationOf(code) ?? ''));
    }
  });

  it('leads through all pages and back to the first', () => {
    let code: string = codes[0] ?? '';
    for (const each of codes) {
      assert.equal(code, each);
      code = explanationPage(code)?.next ?? '';
    }
    assert.equal(code, codes[0]);
    assert.equal(explanationPage(code)?.previous, codes.at(-1));
  });

  it('does not exist for a code that there is none of', () => {
    for (const code of ['no/such', '__proto__', '']) assert.equal(explanationPage(code), undefined);
  });
});

const asMarkdown = (block: ExplanationBlock): string => {
  switch (block.kind) {
    case 'example':
      return `\`\`\`pickup\n${block.runs.map(({ text }) => text).join('')}\n\`\`\`\n\n`;
    case 'point':
      return `- ${block.text}\n`;
    case 'paragraph':
      return `${block.text}\n\n`;
  }
};

const bare = (markdown: string): string => markdown.replace(/\s+/g, ' ').trim();

describe('a spec in colours', () => {
  const coloured = (text: string): readonly string[] =>
    colouredRuns(text).flatMap(({ text: run, colour }) => (colour === undefined ? [] : [`${colour} ${run}`]));

  it('tells keywords, names, numbers, texts and comments', () => {
    assert.deepEqual(coloured('use "shop.pickup" // parts\npickup wren "Wren" like heron {\n  turns 5_000 ± 20\n}\n'), [
      'keyword use',
      'string "shop.pickup"',
      'comment // parts',
      'keyword pickup',
      'name wren',
      'string "Wren"',
      'keyword like',
      'name heron',
      'keyword turns',
      'number 5_000',
      'number 20',
    ]);
  });

  it('put together is the text, whatever that is', () => {
    for (const text of ['', '\n', 'pickup {', '}} "', 'coil x { 5 ; ; }\r\n# …', 'pickup a "1\n2" {'])
      assert.equal(
        colouredRuns(text)
          .map(({ text: run }) => run)
          .join(''),
        text,
      );
  });
});
