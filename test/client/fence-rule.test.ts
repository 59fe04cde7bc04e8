import assert from 'node:assert/strict';
import type { Uri } from 'vscode';
import { type DrawnAt, fenceRule } from '../../client/src/features/markdown/fence-rule.ts';
import { fencesIn } from '../../client/src/features/markdown/fences-in.ts';
import type { RenderRule, Token } from '../../client/src/features/markdown/markdown-it.ts';

describe('fences of Markdown', () => {
  const page = { path: '/shop/notes.md' } as Uri;
  const fence = (info: string, content: string): Token => ({ info, content, attrs: [['data-line', '7']] });
  const attributes = ({ attrs }: Pick<Token, 'attrs'>): string =>
    (attrs ?? []).map(([name, value]) => ` ${name}="${value}"`).join('');
  const renderer = { renderToken: () => '', renderAttrs: attributes };
  const plain: RenderRule = (tokens, index) => {
    const token = tokens[index];
    return token ? `<pre${attributes(token)}>${token.content}</pre>` : '';
  };
  const rendered = (tokens: readonly Token[], at: number, drawnAt: DrawnAt, document: Uri | null = page): string =>
    fenceRule(drawnAt, plain)(tokens, at, {}, document ? { currentDocument: document } : undefined, renderer);

  it('one of a spec is its drawing at its line of the document, its text folded in below', () => {
    const html = rendered([fence('pickup', 'a')], 0, () => ({ state: 'current', html: '<p>drawn</p>' }));
    assert.equal(
      html,
      '<div data-line="7"><figure class="pickup-figure pickup-current"><p>drawn</p><details><summary>Spec</summary><pre>a</pre></details></figure></div>\n',
    );
  });

  it('each is asked for by its place among the specs of the document', () => {
    const asked: (readonly [number, string])[] = [];
    const tokens = [fence('js', 'x'), fence('pickup', 'a'), fence('pickup wide', 'b'), fence('pickups', 'c')];
    const drawnAt: DrawnAt = (_, place, text) => {
      asked.push([place, text]);
      return undefined;
    };
    const all = tokens.map((_, index) => rendered(tokens, index, drawnAt));
    assert.deepEqual(asked, [
      [0, 'a'],
      [1, 'b'],
    ]);
    // Where no drawing is wanted, and for any other language, the page is as it was.
    assert.deepEqual(
      all,
      ['x', 'a', 'b', 'c'].map((text) => `<pre data-line="7">${text}</pre>`),
    );
  });

  it('until there is a drawing the text is shown, and an older drawing says that it is older', () => {
    assert.match(
      rendered([fence('pickup', 'a')], 0, () => ({ state: 'asked' })),
      /being drawn\.<\/p><pre>a<\/pre>/,
    );
    assert.match(
      rendered([fence('pickup', 'a')], 0, () => ({ state: 'failed' })),
      /was not drawn; .*<\/p><pre>a<\/pre>/,
    );
    assert.match(
      rendered([fence('pickup', 'a')], 0, () => ({ state: 'former', html: '<p>drawn</p>' })),
      /before the last change\.<\/p><p>drawn<\/p><details>/,
    );
  });

  it('a page that is no document has no folder for the parts: it keeps its text', () => {
    const html = rendered([fence('pickup', 'a')], 0, () => ({ state: 'current', html: '' }), null);
    assert.equal(html, '<pre data-line="7">a</pre>');
  });
});

describe('the specs in a text of Markdown', () => {
  const MARKS = '```';

  it('are found with their text as the preview takes it, others not', () => {
    const text = `${MARKS}pickup\na\n\nb\n${MARKS}\n\n${MARKS}js\nx\n${MARKS}\n~~~ pickup wide\r\nc\r\n~~~\n${MARKS}pickups\ny\n${MARKS}\n`;
    assert.deepEqual(fencesIn(text), ['a\n\nb\n', 'c\n']);
    assert.deepEqual(fencesIn(`${MARKS}pickup\nnever ended`), []);
  });
});
