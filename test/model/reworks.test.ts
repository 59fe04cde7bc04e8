/** A later state of the same pickup: what is taken over, what stands alone, and what is told of the state before. */
import assert from 'node:assert/strict';
import { hover } from '../../server/src/features/hover.ts';
import { formerState } from '../../server/src/model/former-state.ts';
import type { Pickup } from '../../server/src/model/pickup.ts';
import { analyse } from '../support/check-fixture.ts';

const FOUND = `magnet bar {
  material alnico-5
  size 60 x 12 x 3 mm
}
wire plain-42 {
  gauge 42 AWG
}
pickup found "As it came" {
  serial 17
  made 2019-03-01
  note "dropped once"
  conductors violet grey pink turquoise
  coil screw {
    wire plain-42
    counted 5_000
    wound clockwise
    start to pink
    finish to grey
  }
  coil slug like screw {
    counted 5_010
    start to violet
    finish to turquoise
  }
  magnet bar north toward screw
  hookup {
    hot violet
    link turquoise grey
    ground pink
  }
  readings "as received" 2026-11-20 {
    hot to ground 8.2 kohm
  }
}
`;

const pickups = (text: string): ReadonlyMap<string, Pickup> =>
  new Map(analyse(text).pickups.map(({ pickup }) => [pickup.name, pickup]));

function later(...lines: readonly string[]): Pickup {
  const pickup = pickups(`${FOUND}pickup later reworks found {\n${lines.join('\n')}\n}\n`).get('later');
  assert.ok(pickup);
  return pickup;
}
const coilOf = (pickup: Pickup, name: string) => {
  const coil = pickup.coils.find((each) => each.name === name);
  assert.ok(coil, name);
  return coil;
};

describe('a pickup that reworks another', () => {
  it('takes over the history of the piece, and adds to it', () => {
    const pickup = later('note "slug rewound"');
    assert.equal(pickup.serial?.value, '17');
    assert.equal(pickup.title, 'As it came');
    assert.equal(coilOf(pickup, 'screw').counted?.value.si, 5000);
    assert.deepEqual(
      pickup.notes.map(({ value }) => value),
      ['dropped once', 'slug rewound'],
    );
  });

  it('leaves what belongs to the former state with it, and points to it', () => {
    const pickup = later();
    assert.equal(pickup.made, undefined);
    assert.deepEqual(pickup.readings, []);
    assert.equal(pickup.reworks?.name, 'found');
    assert.equal(pickup.reworks?.readings.length, 1);
    assert.equal(formerState(pickup), pickup.reworks);
  });

  it('keeps its coils as they were wound, and the bar as it lay', () => {
    const pickup = later();
    assert.deepEqual(
      pickup.coils.map(({ work }) => work?.value),
      ['kept', 'kept'],
    );
    assert.equal(pickup.barMagnet?.value.work, 'kept');
    assert.equal(later('magnet bar south toward screw, turned').barMagnet?.value.work, 'turned');
  });

  it('leaves it open whether a coil with other turns is still the same', () => {
    assert.equal(coilOf(later('coil slug { turns 7_000 }'), 'slug').work, undefined);
    assert.equal(coilOf(later('coil slug { tension 20 g }'), 'slug').work?.value, 'kept');
  });

  it('takes over nothing but the name of a coil that is new', () => {
    const slug = coilOf(later('coil slug { new; turns 7_000 }'), 'slug');
    assert.equal(slug.work?.value, 'new');
    assert.equal(slug.wire, undefined);
    assert.equal(slug.counted, undefined);
    assert.equal(slug.start, undefined);
  });

  it('has no coil that is taken away', () => {
    assert.deepEqual(
      later('without slug').coils.map(({ name }) => name),
      ['screw'],
    );
  });

  it('undoes a joint of which a lead is joined anew', () => {
    const { hookup } = later('without slug', 'hookup { hot grey; free violet turquoise }');
    assert.deepEqual(
      hookup?.joints.map(({ kind, leads }) => [kind, ...leads.map(({ text }) => text)].join(' ')).sort(),
      ['free violet turquoise', 'ground pink', 'hot grey'],
    );
  });

  it('may itself be reworked: new is said of one state only', () => {
    const chain = pickups(
      `${FOUND}pickup heavier reworks found {\n  coil slug { new; turns 7_000 }\n}\npickup repaired reworks heavier {\n  note "joint resoldered"\n}\n`,
    );
    const repaired = chain.get('repaired');
    assert.ok(repaired);
    assert.equal(repaired.reworks?.reworks?.name, 'found');
    assert.equal(coilOf(repaired, 'slug').work?.value, 'kept');
    assert.equal(coilOf(repaired, 'slug').turns?.value.si, 7000);
  });
});

describe('names in a chain of states', () => {
  const problems = (text: string) =>
    analyse(text).findings.flatMap(({ code, message }) => (code.startsWith('name/') ? [`${code}: ${message}`] : []));

  it('that lead back to themselves are a circle', () => {
    assert.match(problems('pickup a reworks b {\n}\npickup b reworks a {\n}\n').join(), /name\/cycle/);
  });

  it('can take away only what there was', () => {
    assert.match(
      problems(`${FOUND}pickup b reworks found {\n  without slag\n}\n`).join(),
      /found has no coil called slag/,
    );
    assert.match(problems('pickup a {\n  without slug\n}\n').join(), /this pickup reworks no other/);
  });

  it('only a pickup has states', () => {
    const { findings } = analyse('wire a {\n  gauge 42 AWG\n}\nwire b reworks a {\n}\n');
    assert.match(findings[0]?.message ?? '', /Only a `pickup` reworks another/);
  });
});

describe('turns that are stated anew', () => {
  it('go before the count of the state before, and leave open whether the coil is the same', () => {
    const { counted, turns, work } = coilOf(later('  coil slug {', '    turns 4_800', '  }'), 'slug');
    assert.deepEqual([counted?.value.si, turns?.value.si, work?.value], [undefined, 4800, undefined]);
    const kept = coilOf(later('  coil slug {', '    turns 4_800', '    counted 4_803', '  }'), 'slug');
    assert.equal(kept.counted?.value.si, 4803);
    assert.equal(coilOf(later(), 'slug').counted?.value.si, 5010);
  });
});

describe('a coil that lies in its bobbin', () => {
  it('is not told again in a later state that it is too big for it', () => {
    const shelf = 'bobbin flat {\n  core 63.0 x 5.6 mm\n  window 7.2 x 2.0 mm\n}\n';
    const text = `${shelf}${FOUND.replace('    wire plain-42\n', '    bobbin flat\n    wire plain-42\n')}`;
    const tooBig = (of: string) =>
      analyse(of).findings.flatMap(({ code, subject }) => (code === 'winding/does-not-fit' ? [subject.pickup] : []));
    assert.deepEqual(tooBig(`${text}pickup later reworks found {\n}\n`), tooBig(text));
    assert.ok(tooBig(text).length > 0);
  });
});

describe('a former state', () => {
  const faulty = FOUND.replace('link turquoise grey', 'link turquoise pink').replace('ground pink', 'ground grey');
  const mended = 'pickup later reworks found {\n  hookup {\n    link turquoise grey\n    ground pink\n  }\n}\n';
  const told = (text: string) => analyse(text).findings.map(({ code, severity }) => `${code} ${severity}`);

  it('is a record: what was wrong with it is told as information, and offers no change', () => {
    assert.ok(told(faulty).includes('phase/coils-cancel error'));
    assert.deepEqual(
      told(faulty + mended).filter((each) => each.startsWith('phase/')),
      ['phase/coils-cancel information'],
    );
    const analysis = analyse(faulty + mended);
    assert.ok(analysis.findings.every((finding) => analysis.verifiedFixes(finding).length === 0));
  });

  it('is not what an instrument fits: the newest of a chain is named', () => {
    const chain = `${FOUND}pickup later reworks found {\n}\npickup newest reworks later {\n}\n`;
    const analysis = analyse(`${chain}instrument wren {\n  pickup neck found\n  selector {\n    1 neck\n  }\n}\n`);
    const [finding] = analysis.findings.filter(({ code }) => code === 'fit/former-state');
    assert.match(finding?.message ?? '', /the pickup is newest now/);
    const fix = finding && analysis.verifiedFixes(finding)[0];
    assert.equal(fix?.edits[0]?.newText, 'newest');
  });

  it('that became two pickups names both, and takes neither for granted', () => {
    const branches = `${FOUND}pickup one reworks found {\n}\npickup two reworks found {\n}\n`;
    const analysis = analyse(`${branches}instrument wren {\n  pickup neck found\n  selector {\n    1 neck\n  }\n}\n`);
    const [finding] = analysis.findings.filter(({ code }) => code === 'fit/former-state');
    assert.match(finding?.message ?? '', /it has become one and two/);
    assert.deepEqual(finding && analysis.verifiedFixes(finding).map(({ title, preferred }) => [title, preferred]), [
      ['Fit one', false],
      ['Fit two', false],
    ]);
  });
});

describe('a pickup told in one block', () => {
  const one = (slug: string, magnet = '') =>
    pickups(
      FOUND.replace('readings "as', 'readings found "as')
        .replace('    counted 5_010', `    counted 5_010\n    ${slug}`)
        .replace('toward screw', `toward screw${magnet}`),
    ).get('found');

  it('has a former state where a coil is new and readings were taken as found', () => {
    const pickup = one('new', ', turned');
    assert.ok(pickup);
    const former = formerState(pickup);
    assert.ok(former);
    assert.equal(formerState(pickup), former);
    assert.equal(coilOf(former, 'slug').counted, undefined);
    assert.equal(coilOf(former, 'screw').counted?.value.si, 5000);
    assert.equal(former.barMagnet?.value.pole, 'south');
    assert.equal(former.readings[0]?.found, false);
  });

  it('knows nothing of a bar that was exchanged or of which nothing is said', () => {
    const former = (magnet: string) => {
      const pickup = one('new', magnet);
      return pickup && formerState(pickup);
    };
    assert.equal(former(', new')?.barMagnet, undefined);
    assert.equal(former('')?.barMagnet, undefined);
    assert.equal(former(', kept')?.barMagnet?.value.pole, 'north');
  });

  it('has none where no coil is new', () => {
    const pickup = one('kept');
    assert.equal(pickup && formerState(pickup), undefined);
  });
});

describe('a coil of which nobody says whether it was kept', () => {
  it('says in its hover why its reading as found counts', () => {
    const text = `pickup heron {
  coil main {
    wound clockwise
    start pink
    finish violet
  }
  hookup {
    hot violet
    ground pink
  }
  readings found "as received" {
    main 4.02 kohm
  }
}
`;
    const words = (of: string) => JSON.stringify(hover(analyse(of), of.indexOf('main'))?.text);
    assert.match(words(text), /Counts as kept, since neither turns, count nor spool is stated/);
    assert.doesNotMatch(words(text.replace('coil main {', 'coil main {\n    kept')), /Counts as kept/);
  });
});

describe('two coils that were kept over an exchanged magnet', () => {
  it('say in their hover whether they agreed as found', () => {
    const text = (slug: string) => `pickup heron {
  coil screw {
    kept
    start pink
    finish grey
  }
  coil slug {
    kept
    start violet
    finish white
  }
  hookup {
    hot violet
    link white grey
    ground pink
  }
  readings found "as received" {
    kick pink to grey approach positive
    kick violet to white approach ${slug}
  }
}
`;
    const words = (of: string) => JSON.stringify(hover(analyse(of), of.indexOf('screw'))?.text);
    assert.match(words(text('positive')), /its kick had the same sign as that of the slug coil/);
    assert.match(words(text('negative')), /its kick had the other sign than that of the slug coil/);
    assert.doesNotMatch(words(text('positive').replaceAll('kept', 'new')), /its kick had/);
  });
});
