import assert from 'node:assert/strict';
import { diagnostics, MOST_DIAGNOSTICS } from '../../server/src/features/diagnostics.ts';
import { FOLDER } from '../support/check-fixture.ts';
import { analysedSample, sampleFiles } from '../support/sample-files.ts';
import { SINGLE } from '../support/shop.ts';
import { analysed } from './analysed.ts';

describe('diagnostics', () => {
  it('a clean file has none', () => {
    assert.deepEqual(diagnostics(analysed(SINGLE)), []);
  });

  it('a finding has its code, its severity, and marks what a person would change', () => {
    const text = SINGLE.replace('hot violet', 'hot violett');
    const [found] = diagnostics(analysed(text));
    assert.equal(found?.code, 'lead/undeclared');
    assert.equal(found?.severity, 'error');
    assert.equal(text.slice(found?.span.start, found?.span.end), 'violett');
  });

  it('a related place in another file is given with that file', () => {
    const text = `${SINGLE}\nwire plain-42 {\n  gauge 43 AWG\n}\n`;
    const related = diagnostics(analysed(text)).flatMap((found) => found.related);
    assert.ok(related.some(({ at }) => at.uri === `${FOLDER}parts.pickup`));
  });

  it('no place is related twice, and none is the finding’s own', () => {
    let several = 0;
    for (const { path } of sampleFiles()) {
      const analysis = analysedSample(path);
      for (const { span, related, message } of diagnostics(analysis)) {
        const places = related.map(({ at }) => JSON.stringify(at));
        assert.equal(new Set(places).size, places.length, `${path}: ${message}`);
        assert.ok(!places.includes(JSON.stringify({ uri: analysis.uri, ...span })), `${path}: ${message}`);
        if (places.length > 1) several += 1;
      }
    }
    assert.ok(several > 3);
  });

  it('a flood of them is cut, and the last one says so', () => {
    const text = Array.from({ length: MOST_DIAGNOSTICS + 200 }, () => '@ ;').join('\n');
    const found = diagnostics(analysed(text));
    assert.equal(found.length, MOST_DIAGNOSTICS);
    assert.match(found.at(-1)?.message ?? '', /more findings follow/);
  });
});
