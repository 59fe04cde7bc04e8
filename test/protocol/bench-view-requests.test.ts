import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type {
  CardsResult,
  CheckResult,
  DrawingResult,
  FenceResult,
  FindResult,
  PageResult,
  PlansResult,
  ReportResult,
  SectionResult,
  SoundResult,
} from '../../server/src/lsp/protocol.ts';
import { type ServerProcess, startServer } from './server-process.ts';

const SAMPLES = path.resolve(import.meta.dirname, '../../samples');
const uriOf = (name: string): string => pathToFileURL(path.join(SAMPLES, name)).href;
const textOf = (name: string): string => readFileSync(path.join(SAMPLES, name), 'utf8');

describe('requests of the bench view', () => {
  const uri = uriOf('ottlewick-neck.pickup');
  const subject = { kind: 'pickup', name: 'ottlewick-neck' };
  const asked = { protocol: 3, uri, subject, pots: { volume: 10, tone: 10 }, width: 960 };
  let server: ServerProcess;
  before(async () => {
    server = await startServer();
    server.open(uri, textOf('ottlewick-neck.pickup'));
    await server.diagnosed(uri, 1);
  });
  after(() => server.stop());

  it('each section comes by itself, for the version that is open', async () => {
    for (const section of ['missing', 'photos', 'numbers', 'response', 'positions']) {
      const result = await server.request<SectionResult>('pickup/section', { ...asked, section });
      assert.equal(result.content.section, section);
      assert.equal(result.version, 1);
    }
  });

  it('a file of parts: all of them drawn with their lines, and who uses them', async () => {
    const parts = uriOf('parts/stock.pickup');
    server.open(parts, textOf('parts/stock.pickup'));
    await server.diagnosed(parts, 1);
    const drawing = await server.request<DrawingResult>('pickup/drawing', { protocol: 3, uri: parts, width: 960 });
    assert.deepEqual(drawing.subject, { kind: 'parts', name: 'parts' });
    assert.equal(drawing.parts.find(({ id }) => id === 'spool:RYD-W9')?.range.start.line, 25);
    const { content } = await server.request<SectionResult>('pickup/section', {
      ...asked,
      uri: parts,
      subject: drawing.subject,
      section: 'usage',
      among: [uri],
    });
    assert.ok(content.section === 'usage');
    const usedBy = (name: string) => content.rows.find(({ part }) => part === name)?.usedBy;
    assert.deepEqual(usedBy('bobbin slug-six'), ['screw-six', 'Ottlewick, neck (slug)']);
    assert.deepEqual(usedBy('magnet odd-bar'), ['Ottlewick, neck']);
    assert.deepEqual(usedBy('bobbin rod-eight'), []);
  });

  it('an empty file has no drawing and no finding, but something to begin with', async () => {
    const empty = uriOf('empty.pickup');
    server.open(empty, '# nothing yet\n');
    await server.diagnosed(empty, 1);
    const drawing = await server.request<DrawingResult>('pickup/drawing', {
      protocol: 3,
      uri: empty,
      width: 960,
      subject,
    });
    assert.deepEqual([drawing.svg, drawing.subject, drawing.findings], [undefined, undefined, []]);
    assert.match(drawing.invitation?.starts[0]?.snippet ?? '', /^pickup \$\{1:/);
  });

  it('a base is text of then: facts, findings and parts that differ', async () => {
    const base = {
      label: 'then',
      uri,
      texts: [{ uri, text: textOf('ottlewick-neck.pickup').replace('turns 8_200 ± 20', 'turns 5_000 ± 20') }],
    };
    const { content } = await server.request<SectionResult>('pickup/section', {
      ...asked,
      section: 'comparison',
      base,
    });
    assert.ok(content.section === 'comparison');
    assert.deepEqual(
      content.facts.map(({ was, is }) => [was, is]),
      [['turns 5_000 ± 20', 'turns 8_200 ± 20']],
    );
    assert.deepEqual(content.changedNow, [{ part: 'coil:screw', words: 'was turns 5_000 ± 20' }]);
    // The parts on the shelf were not sent: what is there now stood in for them.
    assert.ok(content.uses.some((each) => each.endsWith('shop.pickup')));
  });

  it('on a schematic the changed control, position and coil are marked', async () => {
    const quorl = uriOf('quorl.pickup');
    const text = textOf('quorl.pickup');
    server.open(quorl, text);
    await server.diagnosed(quorl, 1);
    const then = text
      .replace('volume 500 kohm audio', 'volume 250 kohm audio')
      .replace('3 "middle" middle', '3 "middle alone" middle')
      .replace('turns 7_600', 'turns 7_000');
    const { content } = await server.request<SectionResult>('pickup/section', {
      ...asked,
      uri: quorl,
      subject: { kind: 'instrument', name: 'quorl' },
      section: 'comparison',
      base: { label: 'then', uri: quorl, texts: [{ uri: quorl, text: then }] },
    });
    assert.ok(content.section === 'comparison');
    assert.deepEqual(content.changedNow.map(({ part }) => part).sort(), [
      'coil:middle.main',
      'control:volume',
      'position:3',
    ]);
    assert.match(content.svg ?? '', /250\u202FkΩ/);
    // The hum of two positions is told in both states, though it takes inductances to know it.
    assert.deepEqual([content.come, content.settled], [[], []]);
  });

  it('a pickup that was reworked is shown beside its former state, with no base chosen', async () => {
    const pipkin = uriOf('pipkin-neck.pickup');
    server.open(pipkin, textOf('pipkin-neck.pickup'));
    await server.diagnosed(pipkin, 1);
    const drawing = await server.request<DrawingResult>('pickup/drawing', {
      protocol: 3,
      uri: pipkin,
      width: 960,
      pots: asked.pots,
    });
    // Of the three states the newest is drawn first.
    assert.deepEqual([drawing.subject?.name, drawing.former], ['pipkin-neck', 'pipkin-heavier']);
    assert.deepEqual(
      drawing.subjects.map(({ title }) => title),
      ['Pipkin, neck, as made (record)', 'Pipkin, neck, heavier slug coil (record)', 'Pipkin, neck'],
    );
    const of = { ...asked, uri: pipkin, subject: { kind: 'pickup', name: 'pipkin-heavier' } };
    const { content } = await server.request<SectionResult>('pickup/section', { ...of, section: 'comparison' });
    assert.ok(content.section === 'comparison');
    assert.deepEqual(content.facts.map(({ was, is }) => [was, is]).slice(1), [
      ['the coil that came out', 'wound anew'],
      ['spool RYD-W7', 'spool RYD-W9'],
      ['counted 5_030', 'counted 6_100'],
      ['packing 0.65', 'packing 0.66'],
    ]);
    assert.deepEqual(
      content.come.map(({ code }) => code),
      ['hum/partly-cancelled'],
    );
    const numbers = (await server.request<SectionResult>('pickup/section', { ...of, section: 'numbers' })).content;
    assert.ok(numbers.section === 'numbers');
    assert.equal(numbers.rows.find(({ name }) => name === 'slug coil, turns')?.change, '+1\u202F070');
    const heard = await server.request<SoundResult>('pickup/sound', { ...of, frequencyHz: 110 });
    assert.ok(heard.before !== undefined && heard.before !== heard.now);
  });

  it('a pluck is four seconds of sixteen bits', async () => {
    const { now, sampleRate } = await server.request<SoundResult>('pickup/sound', {
      ...asked,
      frequencyHz: 110,
    });
    assert.equal(Buffer.from(now ?? '', 'base64').length, 4 * sampleRate * 2);
  });

  it('a page and cards admit no script and exactly their own styles', async () => {
    const { html = '' } = await server.request<PageResult>('pickup/page', asked);
    const { pages } = await server.request<CardsResult>('pickup/cards', { ...asked, kinds: ['bench'], paper: 'a4' });
    for (const page of [html, ...pages.map((each) => each.html)]) {
      assert.match(page, /content="default-src 'none'; style-src 'sha256-[^"]*"/);
      assert.doesNotMatch(page, /<script/);
    }
    assert.equal(pages.length, 1);
  });

  it('a page holds its photographs, a hand-over card where asked', async () => {
    const hesk = uriOf('hesk-neck.pickup');
    server.open(hesk, textOf('hesk-neck.pickup'));
    await server.diagnosed(hesk, 1);
    const about = { ...asked, uri: hesk, subject: { kind: 'pickup', name: 'hesk-neck' } };
    const { html = '' } = await server.request<PageResult>('pickup/page', about);
    assert.equal(html.match(/<img alt="leads before the joints"/g)?.length, 1);
    for (const photos of [true, false]) {
      const cards = { ...about, kinds: ['hand-over'], paper: 'a4', photos };
      const { pages } = await server.request<CardsResult>('pickup/cards', cards);
      assert.equal(pages[0]?.html.includes('<img '), photos);
    }
  });

  it('a spec that is not open is checked with all that is found of it, and lets its files be known', async () => {
    const check = (name: string) => server.request<CheckResult>('pickup/check', { protocol: 3, uri: uriOf(name) });
    const missing = await check('mistakes/unit-missing.pickup');
    assert.deepEqual(
      missing.findings.map(({ code, severity, range }) => [code, severity, range.start.line]),
      [['unit/missing', 'error', 21]],
    );
    assert.deepEqual(missing.uris.slice(0, 2), [uriOf('mistakes/unit-missing.pickup'), uriOf('shop.pickup')]);
    // This one takes an inductance to find.
    const late = await check('mistakes/reading-unlikely.pickup');
    assert.deepEqual(
      late.findings.map(({ code, severity }) => [code, severity]),
      [['reading/unlikely', 'warning']],
    );
    assert.match((await check('gone.pickup')).problem ?? '', /there is no such file/);
    assert.match((await check('../elsewhere.pickup')).problem ?? '', /outside/);
  });

  it('a report tells the numbers of every pickup and of every position, of a spec that is not open too', async () => {
    const report = (name: string) => server.request<ReportResult>('pickup/report', { protocol: 3, uri: uriOf(name) });
    const { subjects } = await report('larkspit.pickup');
    const instrument = subjects.find(({ kind }) => kind === 'instrument');
    assert.equal(instrument?.tables.length, 5);
    assert.match(instrument?.tables[1]?.caption ?? '', /position 2/);
    const [pickup] = (await report('hesk-neck.pickup')).subjects;
    const numbers = pickup?.tables[0]?.rows.find(({ name }) => name === 'screw coil, resistance at 20\u202F°C, kΩ');
    assert.match(numbers?.now ?? pickup?.tables[0]?.rows.map(({ name }) => name).join('; ') ?? '', /^\d.* ± /);
    assert.match((await report('../elsewhere.pickup')).problem ?? '', /outside/);
  });

  describe('a spec that stands in a document of other words', () => {
    const fence = (text: string, place = 0, page = 'notes/how-to.md') =>
      server.request<FenceResult>('pickup/fence', { protocol: 3, uri: uriOf(page), text, place });

    it('is drawn, with the parts that lie where the document lies', async () => {
      const text = textOf('mistakes/phase-coils-cancel.pickup');
      const { html = '', uris } = await fence(text);
      assert.match(html, /^<div class="pickup-drawing"><svg [^>]*role="img"/);
      assert.match(html, /<li class="pickup-error"><b>Line 36, error\. <\/b>/);
      assert.match(html, /phase\/coils-cancel/);
      assert.ok(uris.includes(uriOf('shop.pickup')) && !uris.some((uri) => uri.includes('how-to')));
      // The same text twice in one page: no two elements share an id.
      const second = (await fence(text, 1)).html ?? '';
      const ids = [...`${html}${second}`.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
      assert.ok(ids.length >= 4);
      assert.equal(new Set(ids).size, ids.length);
    });

    it('from another folder its parts are elsewhere, and outside of the workspace nothing is read', async () => {
      const elsewhere = (await fence('use "../shop.pickup"\n', 0, 'notes.md')).html ?? '';
      assert.match(elsewhere, /use\/outside/);
      assert.doesNotMatch(elsewhere, /<svg/);
      assert.match((await fence('use "shop.pickup"\n')).html ?? '', /use\/missing/);
    });

    it('what does not read is told in words, parts alone are drawn', async () => {
      const { html = '' } = await fence('pickup one {\n  coil a {\n');
      assert.match(html, /<li class="pickup-error"><b>Line 1, error\. .*syntax\/unclosed/);
      const parts = (await fence('wire thin {\n  gauge 43 AWG\n}\n')).html ?? '';
      assert.match(parts, /thin.*43 AWG/s);
    });

    it('whatever was typed is text', async () => {
      const typed = '</style><script>alert(1)</script><img src=x onerror=alert(1)>';
      const { html = '' } = await fence(
        `use "../shop.pickup"\npickup one "${typed}" {\n  note "${typed}"\n  strings 6\n  <b onclick=alert(1)>\n}\n`,
      );
      assert.match(html, /&lt;script/);
      const names = new Set([...html.matchAll(/<([a-zA-Z][^\s/>]*)/g)].map(([, name]) => name));
      const harmless =
        'b bdi circle code desc details div ellipse g li line p path pattern polygon rect style summary svg table tbody td text th thead title tr tspan ul caption h2';
      for (const name of names) assert.ok(harmless.split(' ').includes(name ?? ''), `<${name}>`);
      assert.doesNotMatch(html, /<[^>]* on[a-z]+=/);
    });
  });

  it('pickups are found by filters; one that cannot be read says how it is written', async () => {
    const uris = ['ottlewick-neck', 'hesk-neck', 'cinder-bridge'].map((name) => uriOf(`${name}.pickup`));
    const found = await server.request<FindResult>('pickup/find', { protocol: 3, uris, typed: 'serial RYD-021' });
    assert.deepEqual(
      found.found.map(({ name }) => name),
      ['ottlewick-neck'],
    );
    const counted = await server.request<FindResult>('pickup/find', { protocol: 3, uris, typed: 'turns 5000 to 6000' });
    assert.deepEqual(
      counted.found.map(({ name, about }) => [name, /kΩ · .* turns/.test(about)]),
      [
        ['hesk-neck', true],
        ['cinder-bridge', true],
      ],
    );
    assert.deepEqual(counted.cautions, []);
    const unswept = await server.request<FindResult>('pickup/find', { protocol: 3, uris, typed: 'needs sweep' });
    assert.ok(unswept.found.length > 1 && unswept.cautions.some((each) => /Phantom power off/.test(each)));
    const wrong = await server.request<FindResult>('pickup/find', { protocol: 3, uris, typed: 'made yesterday' });
    assert.match(wrong.problem ?? '', /write it like “made /);
  });

  it('plans for a fault come in rank, each with its steps, what it leaves to be heard, and its edits', async () => {
    const faulty = uriOf('mistakes/phase-coils-cancel.pickup');
    server.open(faulty, textOf('mistakes/phase-coils-cancel.pickup'));
    await server.diagnosed(faulty, 1);
    const { plans } = await server.request<PlansResult>('pickup/plans', {
      protocol: 3,
      uri: faulty,
      cursor: { line: 12, character: 0 },
      what: 'repair',
    });
    assert.ok(plans.length > 1, 'the whole list, not the first alone');
    for (const { steps, leaves, edit } of plans) {
      assert.notEqual(steps.length, 0);
      assert.match(leaves[0] ?? '', /in phase/);
      assert.notEqual(Object.keys(edit.changes ?? {}).length, 0);
    }
    const minutes = plans.map(({ title }) => Number(/about (\d+) min/.exec(title)?.[1]));
    assert.deepEqual(
      minutes,
      minutes.toSorted((a, b) => a - b),
    );
  });

  it('a planned wiring comes with the edits that write it; once they are written every position is right, and nothing is planned', async () => {
    const own = uriOf('unwired.pickup');
    const text = textOf('pennywither.pickup').replace(/\n {2}wiring \{[^}]*\}\n/, '\n');
    server.open(own, text);
    await server.diagnosed(own, 1);
    const plan = async () => {
      const of = { kind: 'instrument', name: 'pennywither' };
      const request = { ...asked, uri: own, subject: of, section: 'plan' };
      const { content } = await server.request<SectionResult>('pickup/section', request);
      assert.ok(content.section === 'plan');
      return content;
    };
    const { version, edits, lines } = await plan();
    assert.equal(version, 1);
    const [{ range, newText } = assert.fail('no edit'), ...others] = edits;
    assert.deepEqual([others, range.start], [[], range.end]);
    for (const line of lines) assert.ok(newText.includes(line.trim()), line);
    server.change(own, 2, [{ range, text: newText }]);
    await server.diagnosed(own, 2);
    // It would be planned anew while a position does something else.
    const after = await plan();
    assert.deepEqual([after.version, after.says, after.edits], [2, [], []]);
  });

  it('nonsense is answered with nothing, and the server lives', async () => {
    const nonsense = [
      {},
      { uri },
      { uri: 7 },
      { ...asked, subject: null },
      { ...asked, section: 'numbers', pots: 'up' },
    ];
    for (const method of ['section', 'page', 'cards', 'find', 'plans', 'sound']) {
      for (const params of nonsense) await server.request(`pickup/${method}`, params);
    }
    const { content } = await server.request<SectionResult>('pickup/section', { ...asked, section: 'missing' });
    assert.equal(content.section, 'missing');
  });
});
