/** What the compiler cannot see of texts: a template without the tag inside one with it could still print what is missing. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { say } from '../../server/src/checks/say.ts';

const FOLDER = path.resolve('server/src/checks');

describe('texts of findings', () => {
  it('are the words with what is said of in between', () => {
    assert.equal(
      say`the ${'slug'} coil has ${5000} turns, \`turns 5_000\``,
      'the slug coil has 5000 turns, `turns 5_000`',
    );
  });

  it('take no missing value, no condition and no object', () => {
    const missing: string | undefined = [''][1];
    // @ts-expect-error a value that may be missing
    assert.ok(say`${missing}`);
    // @ts-expect-error a condition
    assert.ok(say`${missing === undefined}`);
    // @ts-expect-error an object
    assert.ok(say`${{ missing }}`);
  });

  it('the search for untagged templates finds them', () => {
    const found = (source: string) => untaggedInside(source.replaceAll('@', '$'));
    assert.deepEqual(found("say`a @{b ? `c @{d}` : ''}`").length, 1);
    assert.deepEqual(found("say`a @{b ? say`c @{d}` : ''}` + `e @{f}`"), []);
  });

  for (const name of readdirSync(FOLDER).filter((each) => each.endsWith('.ts') && each !== 'pages.ts'))
    it(`${name} tags every template inside a text`, () => {
      assert.deepEqual(untaggedInside(readFileSync(path.join(FOLDER, name), 'utf8')), []);
    });
});

/** Templates without the tag that lie inside one with it and put something in. Strings and comments hold no backticks here. */
function untaggedInside(source: string): readonly string[] {
  const open: { readonly tagged: boolean; readonly start: number; braces: number }[] = [];
  const found: string[] = [];
  let inText = false;
  const code = source.replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, (comment) => comment.replace(/[^\n]/g, ' '));
  for (let at = 0; at < code.length; at++) {
    const last = open.at(-1);
    if (code[at] === '\\') at += 1;
    else if (code[at] === '`' && inText && last) {
      open.pop();
      const text = code.slice(last.start, at + 1);
      if (!last.tagged && open.some(({ tagged }) => tagged) && text.includes('${')) found.push(text);
      inText = false;
    } else if (code[at] === '`') {
      open.push({ tagged: code.slice(at - 3, at) === 'say', start: at, braces: 0 });
      inText = true;
    } else if (inText && code.startsWith('${', at)) {
      inText = false;
      at += 1;
    } else if (!inText && last && code[at] === '{') last.braces += 1;
    else if (!inText && last && code[at] === '}') {
      if (last.braces === 0) inText = true;
      else last.braces -= 1;
    }
  }
  return found;
}
