/** What the analysis of a file puts together: findings with their pickups, late ones, accepted ones, fixes that hold, faults. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { newestOf } from '../../server/src/analysis/newest.ts';
import { ownParts } from '../../server/src/analysis/own-parts.ts';
import type { Edit, Finding } from '../../server/src/checks/finding.ts';
import { say } from '../../server/src/checks/say.ts';
import type { Place } from '../../server/src/model/place.ts';
import { analyse, EXAMPLE, findingOf, fixed, fixTitles, hostOf } from '../support/check-fixture.ts';
import { sampleFiles } from '../support/sample-files.ts';
import { PARTS, SINGLE, single } from '../support/shop.ts';

const PICKUP = (name: string, inside = '') => single(name, { inside });
const HOT_WAX = '  potting {\n    bath 92 degC\n  }\n';

describe('findings', () => {
  it('stand in order of place, and with the pickup or instrument that they are of', () => {
    const text = `${PICKUP('a', HOT_WAX)}wire w {\n  gauge 42 mm\n}\n${PICKUP('b', HOT_WAX)}${PICKUP('c')}`;
    const analysis = analyse(text);
    const starts = analysis.findings.map(({ place }) => analysis.locate(place)?.start ?? 0);
    assert.deepEqual(
      starts,
      [...starts].sort((x, y) => x - y),
    );
    assert.deepEqual(
      analysis.pickups.map(({ pickup, findings }) => [pickup.name, findings.map(({ code }) => code)]),
      [
        ['a', ['potting/too-hot']],
        ['b', ['potting/too-hot']],
        ['c', []],
      ],
    );
  });

  it('that are accepted are information in the pickup as in the file', () => {
    const text = PICKUP('a', `${HOT_WAX}  accept potting/too-hot "the client knows"\n`);
    const analysis = analyse(text);
    for (const found of [analysis.findings, analysis.pickups[0]?.findings ?? []])
      assert.deepEqual(
        found.map(({ code, severity }) => [code, severity]),
        [['potting/too-hot', 'information']],
      );
  });
});

describe('findings that need inductances', () => {
  const quorl = readFileSync('samples/quorl.pickup', 'utf8');
  const shop = { 'shop.pickup': readFileSync('samples/shop.pickup', 'utf8') };
  const parts = { 'parts/stock.pickup': readFileSync('samples/parts/stock.pickup', 'utf8') };
  const LATE = ['hum/partly-cancelled', 'hum/partly-cancelled'];

  it('come when they are asked for, once, and are known from then on', () => {
    const analysis = analyse(quorl, { ...shop, ...parts });
    assert.deepEqual(analysis.findings, []);
    assert.equal(analysis.knownFindings(), analysis.findings);
    const all = analysis.allFindings();
    assert.deepEqual(
      all.map(({ code }) => code),
      LATE,
    );
    assert.equal(analysis.allFindings(), all);
    assert.equal(analysis.knownFindings(), all);
  });

  it('are known of what was worked out before and stayed as it was', () => {
    const analyser = createAnalyser();
    const files = { ...shop, ...parts };
    const first = analyse(quorl, files, analyser);
    assert.deepEqual(first.knownFindings(), []);
    first.allFindings();
    const codes = (text: string) =>
      analyse(text, files, analyser)
        .knownFindings()
        .map(({ code }) => code);
    assert.deepEqual(codes(`# a remark\n${quorl}`), LATE);
    assert.deepEqual(codes(quorl.replace('turns 7_600', 'turns 7_700')), []);
  });

  it('may be accepted: that nothing needs it is told once all are worked out, not before', () => {
    const text = PICKUP('a', '  accept target/missed\n');
    const analysis = analyse(text);
    assert.deepEqual(analysis.findings, []);
    assert.deepEqual(
      analysis.allFindings().map(({ code }) => code),
      ['accept/unused'],
    );
  });
});

describe('a gauge where a wire should be named', () => {
  const coil = (wires: string) => `${wires}pickup p {\n  coil main {\n    wire 42 AWG\n  }\n}\n`;
  const wire = (name: string, gauge: number) => `wire ${name} {\n  gauge ${gauge} AWG\n}\n`;
  const titles = (wires: string) => {
    const analysis = analyse(coil(wires));
    const found = analysis.findings.find(({ remedies }) => remedies([]).length > 0);
    return found && analysis.verifiedFixes(found).map(({ title }) => title);
  };

  it('names those of that gauge, else makes a block for it', () => {
    assert.deepEqual(titles(wire('fine', 43)), ['Describe it as wire awg-42']);
    assert.deepEqual(titles(wire('fine', 43) + wire('plain', 42) + wire('heavy', 42)), [
      'Name plain, a wire of that gauge',
      'Name heavy, a wire of that gauge',
    ]);
    assert.equal(titles(`${wire('fine', 43)}${wire('awg-42', 41)}`), undefined);
    const analysis = analyse(coil(''));
    const [{ code } = { code: '' }] = analysis.findings;
    assert.ok(
      fixed(analysis, code, 'Describe it as wire awg-42').startsWith('wire awg-42 {\n  gauge 42 AWG\n}\n\npickup p {'),
    );
  });
});

describe('two benches', () => {
  it('are one too many: each after the first is told, with the first', () => {
    const text = 'bench {\n}\nwire w {\n}\nbench {\n  mains 60 Hz\n}\nbench {\n}\n';
    const analysis = analyse(text);
    assert.deepEqual(
      analysis.findings.map(({ code, place, related }) => [
        code,
        analysis.locate(place)?.start,
        related.map((each) => analysis.locate(each.place)?.start),
      ]),
      [
        ['name/duplicate', text.indexOf('bench {\n  mains'), [0]],
        ['name/duplicate', text.lastIndexOf('bench'), [0]],
      ],
    );
  });
});

describe('fixes', () => {
  it('are worked out once, and none is offered that does not hold', () => {
    const analysis = analyse(PICKUP('a', HOT_WAX));
    const finding = findingOf(analysis, 'potting/too-hot');
    assert.equal(analysis.verifiedFixes(finding), analysis.verifiedFixes(finding));
    assert.deepEqual(fixTitles(analysis, 'potting/too-hot'), ['Lower the bath: `bath 60 degC` *']);
    const { place } = finding;
    const remedy = (newText: string) => ({
      title: say`${newText}`,
      kind: 'build' as const,
      edits: [{ place, newText }],
    });
    const offered = (...texts: readonly string[]) =>
      analysis.verifiedFixes({ ...finding, remedies: () => texts.map(remedy) }).map(({ title }) => title);
    assert.deepEqual(offered('bath 93 degC', 'bath 60 degC', 'bath 61 degC'), ['bath 60 degC', 'bath 61 degC']);
    assert.equal(analysis.edited([{ place, newText: 'bath 60 degC' }])?.findings.length, 0);
  });

  it('are none where making them fails, or where their place is gone or lies in each other', () => {
    const analysis = analyse(PICKUP('a', HOT_WAX));
    const finding = findingOf(analysis, 'potting/too-hot');
    const failing = {
      ...finding,
      remedies: () => {
        throw new Error('no idea');
      },
    };
    assert.deepEqual(analysis.verifiedFixes(failing), []);
    const elsewhere = findingOf(analyse(PICKUP('b', HOT_WAX)), 'potting/too-hot').place;
    assert.equal(analysis.edited([{ place: elsewhere, newText: '' }]), undefined);
    const { place } = finding;
    assert.equal(
      analysis.edited([
        { place, newText: 'x' },
        { place, newText: 'y' },
      ]),
      undefined,
    );
  });

  it('of the build that bring a new fault are not offered; a writer sees what a change of the text brings', () => {
    const analysis = analyse(PICKUP('a', HOT_WAX));
    const finding = findingOf(analysis, 'potting/too-hot');
    const { place } = finding;
    const offered = (kind: 'build' | 'text', newText: string) =>
      analysis.verifiedFixes({ ...finding, remedies: () => [{ title: say`it`, kind, edits: [{ place, newText }] }] })
        .length;
    assert.equal(offered('build', 'bath 60 degC'), 1);
    assert.equal(offered('build', 'bath 94 degC'), 0);
    assert.equal(offered('build', 'bath 60 degC; bogus 3'), 0);
    assert.equal(offered('text', 'bath 60 degC; bogus 3'), 1);
  });
});

describe('a fix of the build', () => {
  const offered = (text: string, code: string, edits: (analysis: Analysis, finding: Finding) => readonly Edit[]) => {
    const analysis = analyse(text);
    const finding = findingOf(analysis, code);
    const remedy = { title: say`it`, kind: 'build' as const, edits: edits(analysis, finding) };
    return analysis.verifiedFixes({ ...finding, remedies: () => [remedy, remedy] }).length;
  };
  const cooler = ({ place }: Finding): Edit => ({ place, newText: 'bath 60 degC' });
  /** Before the brace that ends a pickup. */
  const into = (analysis: Analysis, name: string, newText: string): Edit => {
    const chunk = analysis.pickups.find(({ pickup }) => pickup.name === name)?.pickup.place.chunk;
    assert.ok(chunk);
    const end = chunk.text.lastIndexOf('}');
    return { place: { chunk, span: { start: end, end } }, newText };
  };

  it('is offered once, also where something else stays wrong', () => {
    assert.equal(
      offered(PICKUP('a', HOT_WAX), 'potting/too-hot', (_, finding) => [cooler(finding)]),
      1,
    );
    const other = PICKUP('a', `${HOT_WAX}  conductors blue\n`);
    assert.equal(
      offered(other, 'potting/too-hot', (_, finding) => [cooler(finding)]),
      1,
    );
  });

  it('is not offered where it brings a fault to another pickup, or a name that there is already', () => {
    const two = PICKUP('a', HOT_WAX) + PICKUP('b');
    assert.equal(
      offered(two, 'potting/too-hot', (all, finding) => [cooler(finding), into(all, 'b', '')]),
      1,
    );
    assert.equal(
      offered(two, 'potting/too-hot', (all, finding) => [cooler(finding), into(all, 'b', HOT_WAX)]),
      0,
    );
    const wire = 'wire w {\n}\n';
    const named = (name: string) =>
      offered(wire + PICKUP('a', HOT_WAX), 'potting/too-hot', (all, finding) => [
        cooler(finding),
        { ...into(all, 'a', ''), newText: `}\nwire ${name} {\n` },
      ]);
    assert.deepEqual([named('v'), named('w')], [1, 0]);
  });

  it('may lie in the bench: all that is judged by it is judged anew', () => {
    const bench = (percent: string) => `bench {\n  meter accuracy ${percent}\n}\n`;
    const text = `${bench('0.5 %')}bobbin six {
  core 63.0 x 5.6 mm
  window 11.0 x 5.2 mm
}
wire w {
  gauge 42 AWG
  overall 0.07 mm
}
${PICKUP('a', '  readings "done" 2026-10-02 {\n    main 9.9 kohm at 20 degC\n  }\n').replace('coil main {', 'coil main {\n    bobbin six\n    wire w\n    packing 0.66')}`;
    const accuracy = (percent: string) =>
      offered(text, 'reading/unlikely', ({ bench: held, text: whole }) => {
        assert.ok(held?.meter && whole.startsWith(bench('0.5 %')));
        return [{ place: held.meter.place, newText: `meter accuracy ${percent}` }];
      });
    assert.deepEqual([accuracy('0.6 %'), accuracy('60 %')], [0, 1]);
  });

  it('is looked for in pickups of so many coils as somebody builds', () => {
    const coils = (count: number) =>
      Array.from({ length: count }, (_, index) => `  coil c${index} {\n  }\n`).join('') + HOT_WAX;
    const of = (count: number) =>
      offered(PICKUP('a', coils(count - 1)), 'potting/too-hot', (_, finding) => [cooler(finding)]);
    assert.deepEqual([of(24), of(25)], [1, 0]);
  });
});

describe('a file', () => {
  it('that cannot be analysed at all says so, and nothing else', () => {
    const host = hostOf({ 'example.pickup': PICKUP('a') });
    const analysis = createAnalyser().analyse(EXAMPLE, {
      ...host,
      content: () => {
        throw new Error('the disk is on fire');
      },
    });
    for (const found of [analysis.findings, analysis.allFindings(), analysis.knownFindings()])
      assert.deepEqual(
        found.map(({ code, message }) => [code, /This file is not analysed: .*on fire/.test(message)]),
        [['analysis/incomplete', true]],
      );
  });

  it('says so whatever is thrown', () => {
    const analysis = createAnalyser().analyse(EXAMPLE, {
      content: () => {
        throw 'no disk at all';
      },
      isInside: () => true,
    });
    assert.match(analysis.findings[0]?.message ?? '', /\(no disk at all\)/);
  });

  it('knows which of its pickups are the newest, and the parts that it writes itself', () => {
    const text = `wire w {
  gauge   42 AWG
}
wire v like w {
  overall 0.07 mm
}
bench {
  mains 60 Hz
}
spool s {
}
bobbin b {
}
magnet m {
}
${PICKUP('old')}pickup new reworks old {
}
`;
    const analysis = analyse(text);
    assert.deepEqual(
      newestOf(analysis.pickups).map(({ pickup }) => pickup.name),
      ['new'],
    );
    assert.deepEqual(
      ownParts(analysis).map(({ name, of, lines }) => [of.kind, name, lines]),
      [
        ['wire', 'w', ['gauge 42 AWG']],
        ['wire', 'v', ['like w', 'overall 0.07 mm']],
        ['bench', 'bench', ['mains 60 Hz']],
        ['spool', 's', []],
        ['bobbin', 'b', []],
        ['magnet', 'm', []],
      ],
    );
    const names = (kind: 'wire' | 'pickup' | 'magnet') => analysis.namesInScope(kind).map(({ name }) => name);
    assert.deepEqual([names('wire'), names('pickup'), names('magnet')], [['w', 'v'], ['old', 'new'], ['m']]);
    assert.deepEqual(
      analysis.pickupsInSight().map(({ name }) => name),
      ['old', 'new'],
    );
  });

  it('sees the names of the files that it uses', () => {
    const analysis = analyse('use "more.pickup"\nwire own {\n}\n', {
      'more.pickup': `wire theirs {\n}\n${PICKUP('far')}`,
    });
    assert.deepEqual(
      analysis.namesInScope('wire').map(({ name }) => name),
      ['own', 'theirs'],
    );
    assert.deepEqual(
      analysis.pickupsInSight().map(({ name }) => name),
      ['far'],
    );
    assert.deepEqual(analysis.model.pickups, []);
  });
});

describe('an instrument', () => {
  const quorl = analyse(readFileSync('samples/quorl.pickup', 'utf8'), {
    'shop.pickup': readFileSync('samples/shop.pickup', 'utf8'),
    'parts/stock.pickup': readFileSync('samples/parts/stock.pickup', 'utf8'),
  });
  const [instrument] = quorl.instruments;
  assert.ok(instrument);

  it('tells what each position gives, by the pots that are asked for', () => {
    const full = instrument.positions();
    assert.deepEqual(
      full.map(({ key }) => key),
      ['1', '2', '3', '4', '5'],
    );
    assert.equal(instrument.positions(), full);
    const [one, other] = [instrument.response('1', [100, 5000]), instrument.response('2', [100, 5000])];
    assert.deepEqual(one?.frequencyHz, [100, 5000]);
    assert.notDeepEqual(one.levelDb, other?.levelDb);
    assert.equal(instrument.response('7', [100]), undefined);
  });

  it('of unequal coils: what matched ones would give stands beside', () => {
    const [pickup, neck] = quorl.pickups;
    assert.ok(pickup && neck);
    assert.equal(pickup.mismatch(), pickup.mismatch());
    const unequal = analyse(
      readFileSync('samples/quorl.pickup', 'utf8').replace('bobbin slug-six', 'bobbin slug-six\n    turns 4_000'),
      {
        'shop.pickup': readFileSync('samples/shop.pickup', 'utf8'),
        'parts/stock.pickup': readFileSync('samples/parts/stock.pickup', 'utf8'),
      },
    ).pickups[0];
    const beside = unequal?.mismatch();
    assert.deepEqual([beside?.coil.name, beside?.other.name], ['screw', 'slug']);
    // As much louder as the one is than the other, the other is softer.
    const [there, back] = [pickup.outputSince(neck.pickup), neck.outputSince(pickup.pickup)];
    assert.equal(there?.difference.value.toFixed(6), (-(back?.difference.value ?? 0)).toFixed(6));
    assert.notEqual(there?.difference.value, 0);
  });
});

describe('an instrument with three faults in its wiring', () => {
  const files = Object.fromEntries(sampleFiles().map(({ path, text }) => [path, text]));
  const faulty = (files['yarrowby.pickup'] ?? '')
    .replace('lever.a4 lever.a5', 'lever.a4')
    .replace('turquoise lever.c4', 'turquoise')
    .replace('lever.b2 lever.b3 lever.b4', 'lever.b2 lever.b4');

  it('is searched in steps, before its late findings are asked for', () => {
    const [instrument] = analyse(faulty, files, createAnalyser()).instruments;
    assert.ok(instrument);
    assert.ok([...instrument.preparingLate()].length > 0);
    // What was found once is not looked for again.
    assert.equal([...instrument.preparingLate()].length, 0);
    assert.deepEqual(
      instrument.lateFindings().map(({ code }) => code),
      ['switch/position-differs', 'switch/silent', 'switch/silent', 'hum/partly-cancelled'],
    );
  });
});

describe('a pickup', () => {
  it('is told against what it was made for, and against one that it was', () => {
    const analysis = analyse(`${PICKUP('old')}pickup new like old {
  target {
    resistance 9 kohm
  }
  coil main {
    turns 9_000
  }
}
`);
    const [old, now] = analysis.pickups;
    assert.ok(old && now);
    assert.deepEqual([old.aims().length, now.aims().length], [0, 1]);
    const change = now.outputSince(old.pickup);
    const back = old.outputSince(now.pickup);
    assert.ok(change && back);
    // 9,000 turns instead of 7,700 give 20 lg (9,000/7,700) = 1.36 dB more.
    assert.equal(change.difference.value.toFixed(2), '1.36');
    assert.equal(back.difference.value.toFixed(2), '-1.36');
  });
});

describe('a former state that is fitted', () => {
  const fitted = (more: string) =>
    analyse(`${PICKUP('old')}pickup new reworks old {
}
${more}instrument i {
  pickup neck old
  selector {
    1 "neck" neck
  }
}
`);
  const FORMER = 'fit/former-state';

  it('is told with the newest, which a fix fits', () => {
    const analysis = fitted('');
    const finding = findingOf(analysis, FORMER);
    assert.match(finding.message, /old, fitted as neck, is a former state: the pickup is new now.* Fit new\./);
    assert.deepEqual(finding.related, []);
    assert.deepEqual(fixTitles(analysis, FORMER), ['Fit new, the newest state *']);
    assert.match(fixed(analysis, FORMER, 'Fit new, the newest state'), /pickup neck new\n/);
  });

  it('that became two pickups names both, and prefers neither', () => {
    const analysis = fitted('pickup other reworks old {\n}\n');
    const finding = findingOf(analysis, FORMER);
    assert.match(finding.message, /it has become new and other.* Fit the one that lies in it\./);
    assert.deepEqual(
      finding.related.map(({ message }) => message),
      ['new is made of it', 'other is made of it'],
    );
    assert.deepEqual(fixTitles(analysis, FORMER), ['Fit new', 'Fit other']);
  });

  it('is a record: what is wrong with it is information, of which nothing is changed any more', () => {
    const text = (more: string) => `${PICKUP('old', HOT_WAX)}pickup new reworks old {
  potting none
}
${more}`;
    const analyser = createAnalyser();
    const [before, after] = [analyse(text(''), {}, analyser), analyse(text('# a remark\n'), {}, analyser)];
    const [old, again] = [before.pickups[0], after.pickups[0]];
    assert.deepEqual(
      old?.findings.map(({ code, severity, remedies }) => [code, severity, remedies([]).length]),
      [['potting/too-hot', 'information', 0]],
    );
    assert.equal(old, again);
    assert.equal(old?.lateFindings(), old?.lateFindings());
  });

  it('has findings that need inductances as information, too', () => {
    const aimed = SINGLE.replace('  hookup {', '  target {\n    inductance 1 H\n  }\n  hookup {');
    const { pickups } = analyse(`${aimed}pickup newer reworks wren {\n}\n`, { 'parts.pickup': PARTS });
    assert.deepEqual(
      pickups[0]?.lateFindings().map(({ code, severity, remedies }) => [code, severity, remedies([]).length]),
      [['target/missed', 'information', 0]],
    );
  });
});

describe('what is written wrong', () => {
  const remediesOf = (text: string) => {
    const [finding] = analyse(text).findings;
    return finding?.remedies([]).map(({ title, preferred }) => [title, preferred === true]);
  };

  it('has a preferred remedy where one thing can be meant', () => {
    assert.deepEqual(
      remediesOf('pickup p {\n  strings 60,0\n}\n')?.map(([, preferred]) => preferred),
      [true],
    );
    assert.deepEqual(
      remediesOf('pickup p {\n  coil c {\n    turns 5,000\n  }\n}\n')?.map(([, preferred]) => preferred),
      [false, false],
    );
  });

  it('twice names the first, and a name the next that is free in all that the file sees', () => {
    const beside = (text: string, others = {}) => {
      const analysis = analyse(text, others);
      const at = (place: Place) => analysis.locate(place)?.start;
      return {
        found: analysis.findings.map(({ place, related }) => [at(place), ...related.map((each) => at(each.place))]),
        titles: fixTitles(analysis, 'name/duplicate'),
      };
    };
    const line = 'wire a {\n  gauge 42 AWG\n  ';
    assert.deepEqual(beside(`${line}gauge 43 AWG\n}\n`).found, [[line.length, line.indexOf('gauge')]]);
    const others = { 'x.pickup': 'wire a-2 {\n}\n' };
    const two = beside('use "x.pickup"\nwire a {\n}\nwire a {\n}\nbobbin a-3 {\n}\n', others);
    assert.deepEqual([two.titles, two.found], [['Call this one a-3'], [[26, 15]]]);
    assert.deepEqual(beside('bench {\n}\nbench {\n}\n').found, [[10, 0]]);
  });

  it('in a circle of files says which line to take out', () => {
    const action = (text: string, more = {}) => analyse(text, more).findings[0]?.action;
    assert.equal(action('use "example.pickup"\n'), 'Remove the line.');
    assert.equal(
      action('use "b.pickup"\n', { 'b.pickup': 'use "example.pickup"\n' }),
      'Take one of the two lines out.',
    );
  });

  it('in the path of a file is corrected to the nearest one in its folder; to none where none is near', () => {
    const near = (written: string, siblings: readonly string[]) => {
      const host = { ...hostOf({ 'example.pickup': `use "${written}"\n` }), siblings: () => siblings };
      const [finding] = createAnalyser().analyse(EXAMPLE, host).findings;
      return finding?.remedies([]).map(({ title }) => title);
    };
    assert.deepEqual(near('parts/stok.pickup', ['file:///bench/parts/stock.pickup']), [
      'Change to "parts/stock.pickup"',
    ]);
    assert.deepEqual(near('stok.pickup', ['file:///bench/st%C3%B6ck.pickup']), ['Change to "st\u00f6ck.pickup"']);
    assert.deepEqual(near('stok.pickup', ['file:///bench/quite-another.pickup']), []);
    assert.deepEqual(near('stok.pickup', []), []);
  });

  it('says what to do where that is known', () => {
    const [gauge] = analyse('pickup p {\n  coil main {\n    wire 42 AWG\n  }\n}\n').findings;
    assert.match(gauge?.action ?? '', /^Describe the wire in a block of its own/);
  });

  it('keeps a remark above where a wire is described', () => {
    const text = '# the client’s own\npickup p {\n  coil main {\n    wire 42 AWG\n  }\n}\n';
    const analysis = analyse(text);
    const [{ code } = { code: '' }] = analysis.findings;
    assert.ok(fixed(analysis, code, 'Describe it as wire awg-42').startsWith('# the client’s own\nwire awg-42 {'));
  });
});

describe('a block that the program fails at', () => {
  const swept = (name: string) =>
    single(name, { inside: '  readings "as wound" {\n    sweep hot to ground "broken.csv" over 10 kohm\n  }\n' });
  const host = (files: Readonly<Record<string, string>>) => {
    const whole = hostOf(files);
    return {
      ...whole,
      content: (uri: string) => {
        if (uri.endsWith('.csv')) throw new Error('a worn-out drive');
        return whole.content(uri);
      },
    };
  };
  const AFTER = PICKUP('wren', HOT_WAX);

  it('is told once, at its first line; what stands beside it is checked', () => {
    const { findings, model } = createAnalyser().analyse(EXAMPLE, host({ 'example.pickup': swept('heron') + AFTER }));
    assert.deepEqual(
      findings.map(({ code, place, message }) => [code, place.chunk.text.split('\n')[0], /worn-out/.test(message)]),
      [
        ['analysis/incomplete', 'pickup heron {', true],
        ['potting/too-hot', 'pickup wren {', false],
      ],
    );
    assert.deepEqual(
      model.pickups.map(({ name }) => name),
      ['wren'],
    );
  });

  it('in a file that is used is told there', () => {
    const files = { 'worn.pickup': swept('heron'), 'example.pickup': `use "worn.pickup"\n${AFTER}` };
    const analysis = createAnalyser().analyse(EXAMPLE, host(files));
    assert.deepEqual(
      analysis.pickupsInSight().map(({ name }) => name),
      ['wren'],
    );
    assert.deepEqual(
      analysis.findings.map(({ code }) => code),
      ['potting/too-hot'],
    );
  });

  it('may hold any name', () => {
    const text = AFTER + swept('heron');
    const { mentions, unread } = createAnalyser().mentions(EXAMPLE, host({ 'example.pickup': text }));
    assert.ok(mentions.every(({ blockStart }) => blockStart === 0));
    assert.deepEqual(
      unread.map(({ start, text: words }) => [start, words]),
      [[AFTER.length, swept('heron')]],
    );
  });
});

describe('the names of a file', () => {
  const mentionsIn = (text: string, others: Readonly<Record<string, string>> = {}) =>
    createAnalyser().mentions(EXAMPLE, hostOf({ ...others, 'example.pickup': text }));

  it('are its own, not those of a block whose lines it takes over', () => {
    const lender = 'spool s {\n  wire plain\n}\npickup a {\n  coil main {\n    spool s\n  }\n}\n';
    const { mentions } = mentionsIn('use "a.pickup"\npickup b like a {\n}\n', { 'a.pickup': lender });
    assert.deepEqual(
      mentions.map(({ name, at }) => [name, at.uri]),
      [
        ['b', EXAMPLE],
        ['a', EXAMPLE],
      ],
    );
  });

  it('are all at hand, and those that stand in a piece, also where another takes them over', () => {
    const text = 'spool s {\n  wire none\n}\npickup a {\n  coil main {\n    spool s\n  }\n}\npickup b like a {\n}\n';
    const { model, tree } = analyse(text);
    const names = (found: readonly { readonly kind: string; readonly name: string }[]) =>
      found.map(({ kind, name }) => `${kind} ${name}`);
    const all = names(model.references());
    for (const name of ['spool s', 'wire none', 'pickup a', 'pickup b']) assert.ok(all.includes(name), name);
    assert.equal(model.references(), model.references());
    const [spool, pickup, like] = tree.chunks.map(({ chunk }) => names(model.referencesIn(new Set([chunk]))));
    assert.deepEqual(spool, ['spool s', 'wire none']);
    assert.deepEqual(like, ['pickup b', 'pickup a']);
    // Read once for the block itself, and once for the one that is like it.
    assert.deepEqual([...new Set(pickup)], ['pickup a', 'spool s', 'coil main']);
    assert.deepEqual(names(model.referencesIn(new Set())), []);
  });

  it('are told with what they stand for and the block that they stand in', () => {
    const text = 'use "w.pickup"\nspool s {\n  wire plain\n}\nspool t {\n  wire none\n}\n';
    const { mentions, unread } = mentionsIn(text, { 'w.pickup': 'wire plain {\n}\n' });
    assert.deepEqual(
      mentions.map(({ kind, name, declares, at, target, blockStart }) => [
        `${declares ? 'declares' : 'names'} ${kind} ${name}`,
        text.slice(at.start, at.end),
        target && `${target.uri.split('/').at(-1)} ${target.start}`,
        text.slice(blockStart).split(' {')[0],
      ]),
      [
        ['declares spool s', 's', `example.pickup ${text.indexOf('s {')}`, 'spool s'],
        ['names wire plain', 'plain', 'w.pickup 5', 'spool s'],
        ['declares spool t', 't', `example.pickup ${text.indexOf('t {')}`, 'spool t'],
        ['names wire none', 'none', undefined, 'spool t'],
      ],
    );
    assert.deepEqual(unread, []);
  });

  it('may stand in what does not read, too', () => {
    const text = 'wire w {\n}\nspool s {\n  bogus plain\n}\n';
    const { unread } = mentionsIn(text);
    assert.deepEqual(
      unread.map(({ start, text: words, blockStart }) => [text.slice(start, start + words.length), blockStart]),
      [['bogus plain', text.indexOf('spool')]],
    );
  });
});
