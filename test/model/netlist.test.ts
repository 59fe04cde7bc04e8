/** What is joined to what in a pickup, as nets of named points. */
import assert from 'node:assert/strict';
import { coilsBetween, dcTransfers, segmentsOf } from '../../server/src/estimates/pickup-circuit.ts';
import type { LeadPath } from '../../server/src/model/lead.ts';
import {
  foilsOf,
  holdsCoilEnd,
  isWired,
  looseNetlist,
  nodeName,
  type PickupNetlist,
  pickupNetlist,
  probedNets,
} from '../../server/src/model/netlist.ts';
import type { Pickup } from '../../server/src/model/pickup.ts';
import { analyse } from '../support/check-fixture.ts';

/** The last pickup of a text. */
function pickupOf(text: string): Pickup {
  const pickup = analyse(text).model.pickups.at(-1);
  assert.ok(pickup);
  return pickup;
}
const netlistOf = (text: string): PickupNetlist => pickupNetlist(pickupOf(text));
/** Each net's points, sorted; nets of one point left out unless they are asked for. */
const netsOf = (netlist: PickupNetlist, least = 2): readonly string[] =>
  netlist.nets
    .map(({ nodes }) => [...nodes].sort())
    .filter(({ length }) => length >= least)
    .map((nodes) => nodes.join(' '))
    .sort();
const path = (text: string, { place }: Pickup): LeadPath => ({ text, parts: text.split('.'), place });
const pathsOf = (paths: readonly { readonly path: LeadPath }[]) => paths.map(({ path: { text } }) => text);

const coil = (name: string, ...lines: readonly string[]) =>
  `  coil ${name} {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const hookup = (...lines: readonly string[]) => `  hookup {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const pickup = (...parts: readonly string[]) => `pickup p {\n${parts.join('')}}\n`;
const kicks = (...lines: readonly string[]) =>
  `  readings "bench" 2026-10-02 {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;

describe('the nets of a pickup', () => {
  const two = [
    '  conductors violet grey turquoise pink\n  shield bare\n',
    coil('a', 'start to violet', 'finish to grey'),
    coil('b', 'start to turquoise', 'finish to pink'),
  ];

  it('are its joints, with the shield on the instrument’s ground where a line says so', () => {
    const netlist = netlistOf(
      pickup(...two, hookup('hot grey', 'link violet turquoise', 'ground pink', 'shield bare')),
    );
    assert.deepEqual(netsOf(netlist), [
      'chassis lead:bare part:shield',
      'coil:a.finish hot lead:grey',
      'coil:a.start coil:b.start lead:turquoise lead:violet',
      'coil:b.finish ground lead:pink',
    ]);
    assert.notEqual(netlist.chassis, netlist.ground);
    const together = netlistOf(pickup(...two, hookup('hot grey', 'link violet turquoise', 'ground pink bare')));
    assert.equal(together.chassis, together.ground);
    assert.ok(netsOf(together).includes('chassis coil:b.finish ground lead:bare lead:pink part:shield'));
  });

  it('are only what is soldered inside, before the leads are joined', () => {
    const text = pickup(...two, hookup('hot grey', 'link violet turquoise', 'ground pink bare'));
    const loose = looseNetlist(pickupOf(text));
    assert.deepEqual(netsOf(loose), [
      'coil:a.finish lead:grey',
      'coil:a.start lead:violet',
      'coil:b.finish lead:pink',
      'coil:b.start lead:turquoise',
      'lead:bare part:shield',
    ]);
    assert.deepEqual([loose.hot, loose.ground, loose.chassis], [undefined, undefined, undefined]);
    // What a line joins is known all the same.
    assert.deepEqual(loose.nets.map(({ joints }) => joints.map(({ kind }) => kind).join()).sort(), [
      'ground',
      'ground',
      'hot',
      'link',
      'link',
    ]);
  });

  it('of free leads are no joint: each stays by itself', () => {
    const netlist = netlistOf(
      pickup(...two, hookup('hot grey', 'ground pink', 'free violet turquoise', 'shield bare')),
    );
    const violet = netlist.netOf('lead:violet');
    const turquoise = netlist.netOf('lead:turquoise');
    assert.notEqual(violet, turquoise);
    assert.deepEqual([...netlist.free].sort(), [violet, turquoise].sort());
  });

  it('hold metal that is tied to a lead, foil that is soldered, and metal by itself', () => {
    const text = pickup(
      '  conductors violet\n  shield bare\n',
      coil('a', 'start to bare', 'finish to violet', 'foil tied to bare'),
      coil('b', 'foil none'),
      '  baseplate nickel-silver tied to bare\n  cover nickel-silver\n',
      hookup('hot violet', 'ground bare'),
    );
    const netlist = netlistOf(text);
    assert.ok(
      netsOf(netlist).includes('chassis coil:a.start foil:a ground lead:bare part:baseplate part:shield'),
      netsOf(netlist).join('\n'),
    );
    assert.deepEqual(
      netlist.metal.map(({ name, net }) => [name, net === netlist.ground]),
      [
        ['bare', true],
        ['baseplate', true],
        ['cover', false],
      ],
    );
    assert.ok(netsOf(netlist, 1).includes('part:cover'));
    assert.deepEqual(
      foilsOf(netlist).map(({ coil: { name }, net }) => [name, net === netlist.ground]),
      [['a', true]],
    );
  });

  it('are wired where a joint or the end of a coil lies on them, and called as a person calls their points', () => {
    const text = pickup(
      '  conductors violet\n  shield bare\n',
      coil('a', 'start to bare', 'finish to violet'),
      '  baseplate nickel-silver tied to bare\n  cover nickel-silver\n',
    );
    const wired = (netlist: PickupNetlist) => netlist.metal.map(({ net }) => isWired(netlist, net));
    assert.deepEqual(wired(netlistOf(text)), [true, true, false]);
    const apart = text.replace('    start to bare\n', '');
    assert.deepEqual(wired(netlistOf(apart)), [false, false, false]);
    const joined = (line: string) => netlistOf(apart.replace(/}\n$/, `${hookup('hot violet', line)}}\n`));
    assert.deepEqual(wired(joined('ground bare')), [true, true, false]);
    assert.deepEqual(wired(joined('free bare')), [false, false, false]);
    const { nets } = netlistOf(text);
    assert.deepEqual(
      nets.filter(holdsCoilEnd).map(({ nodes }) => [...nodes].map(nodeName).sort().join(' ')),
      ['a.finish violet', 'a.start bare baseplate shield'],
    );
  });

  it('name what no part brings out, each at its word', () => {
    const text = pickup(
      '  conductors violet\n',
      coil('a', 'start to yellow', 'finish to violet', 'foil tied to green'),
      '  baseplate nickel-silver tied to bare\n',
      hookup('hot violet', 'ground a.middle', 'link b.start a.start.inner'),
    );
    assert.deepEqual(pathsOf(netlistOf(text).undeclared), [
      'yellow',
      'bare',
      'green',
      'a.middle',
      'b.start',
      'a.start.inner',
    ]);
  });
});

describe('what is not there', () => {
  it('joins nothing: the other leads of its line are joined all the same', () => {
    const netlist = netlistOf(
      pickup(
        '  conductors violet grey\n',
        coil('a', 'start to violet', 'finish to grey'),
        hookup('hot blue violet', 'ground red'),
      ),
    );
    assert.deepEqual(
      netsOf(netlist),
      ['coil:a.finish lead:grey', 'coil:a.start hot lead:violet', 'chassis ground'].sort(),
    );
    assert.deepEqual(pathsOf(netlist.undeclared), ['blue', 'red']);
  });

  it('leaves foil and metal by themselves', () => {
    const netlist = netlistOf(pickup(coil('a', 'foil tied to blue'), '  cover nickel-silver tied to blue\n'));
    assert.deepEqual(netsOf(netlist, 1), ['coil:a.finish', 'coil:a.start', 'foil:a', 'part:cover']);
    assert.equal(foilsOf(netlist).length, 1);
  });

  it('brings no end out twice: of one colour at two ends, the first is meant', () => {
    assert.deepEqual(netsOf(netlistOf(pickup(coil('a', 'start grey', 'finish grey')))), ['coil:a.start lead:grey']);
    assert.deepEqual(netsOf(netlistOf(pickup(coil('a', 'finish grey'), coil('b', 'start pink', 'finish grey')))), [
      'coil:a.finish lead:grey',
      'coil:b.start lead:pink',
    ]);
  });
});

describe('the leads of a pickup', () => {
  it('are conductors, the shield, leads of coils and taps', () => {
    const text = pickup(
      '  conductors violet grey\n  shield bare\n',
      coil('a', 'turns 5_000', 'start to violet', 'finish grey2', 'tap 2_000 turns orange'),
      coil('b', 'start pink', 'finish blue'),
      hookup('hot a.start', 'link b.start grey2', 'ground blue bare'),
    );
    const netlist = netlistOf(text);
    assert.deepEqual(
      [...netlist.leads.values()].map(({ name, what, ends }) => [
        name,
        what,
        ends.map(({ coil: { name: of }, end }) => `${of} ${end}`).join(),
      ]),
      [
        ['violet', 'conductor', 'a start'],
        ['grey', 'conductor', ''],
        ['bare', 'shield', ''],
        ['grey2', 'coil lead', 'a finish'],
        ['orange', 'tap', ''],
        // The start of b is soldered inside: its lead does not leave the pickup.
        ['blue', 'coil lead', 'b finish'],
      ],
    );
  });

  it('do not leave it where the hookup names the end: that one end, no other', () => {
    const text = pickup(
      coil('a', 'start pink', 'finish grey'),
      coil('b', 'start white', 'finish black'),
      hookup('hot a.start'),
    );
    assert.deepEqual([...netlistOf(text).leads.keys()], ['grey', 'white', 'black']);
  });

  it('brought out twice, or joined twice, are told with where they were first', () => {
    const text = pickup(
      '  conductors violet grey\n',
      coil('a', 'start violet', 'finish grey2'),
      hookup('hot grey2 grey', 'ground violet', 'link violet grey2'),
    );
    const { reused } = netlistOf(text);
    const violet = netlistOf(text).netOf('lead:violet') ?? -1;
    const { joints } = netlistOf(text).nets[violet] ?? {};
    assert.deepEqual(
      joints?.map(({ kind }) => kind),
      ['ground', 'link', 'hot'],
    );
    const spans = reused.map(({ name, place, first, why }) => [name, why, first.span.start < place.span.start]);
    assert.deepEqual(spans, [
      ['violet', 'brought out twice', true],
      ['violet', 'in two joints', true],
      ['grey2', 'in two joints', true],
    ]);
  });

  it('are found by colour, by coil and end, by coil and tap, and as hot and ground', () => {
    const text = pickup(
      '  conductors violet grey\n  cover nickel-silver\n',
      coil('a', 'turns 5_000', 'start to violet', 'finish to grey', 'tap 2_000 turns orange'),
      hookup('hot violet', 'ground grey', 'free orange'),
    );
    const held = pickupOf(text);
    const { resolve } = pickupNetlist(held);
    const nodeOf = (written: string) => resolve(path(written, held));
    for (const [written, node] of [
      ['violet', 'lead:violet'],
      ['VT', 'lead:violet'],
      ['a.start', 'coil:a.start'],
      ['a.finish', 'coil:a.finish'],
      ['a.orange', 'tap:a.orange'],
      ['a.OG', 'tap:a.orange'],
      ['cover', 'part:cover'],
      ['hot', 'hot'],
      ['ground', 'ground'],
      ['a.hot', undefined],
      ['b.start', undefined],
      ['a.start.x', undefined],
      ['blue', undefined],
    ] as const)
      assert.equal(nodeOf(written), node, written);
  });

  it('have a net each before anything lies on them, and so have the ends of coils', () => {
    const netlist = netlistOf(pickup('  conductors violet\n', coil('a')));
    assert.deepEqual(netsOf(netlist, 1), ['coil:a.finish', 'coil:a.start', 'lead:violet']);
    assert.notEqual(netlist.windings[0]?.start, netlist.windings[0]?.finish);
  });

  it('that probes touch are two nets; none where one of them is not there', () => {
    const held = pickupOf(pickup('  conductors violet grey\n', coil('a')));
    const netlist = pickupNetlist(held);
    const touched = (red: string, black: string) =>
      probedNets({ red: path(red, held), black: path(black, held) }, netlist);
    assert.deepEqual(touched('violet', 'grey'), [netlist.netOf('lead:violet'), netlist.netOf('lead:grey')]);
    assert.deepEqual([touched('violet', 'blue'), touched('blue', 'grey')], [undefined, undefined]);
  });
});

describe('the windings of a pickup', () => {
  it('have the ends that are stated, in its block or by the hookup', () => {
    const endsOf = (text: string) => netlistOf(text).windings.map(({ ends, unseen }) => [ends, unseen]);
    assert.deepEqual(endsOf(pickup(coil('a', 'start pink'))), [['stated', false]]);
    assert.deepEqual(endsOf(pickup(coil('a', 'finish pink'))), [['stated', false]]);
    assert.deepEqual(endsOf(pickup(coil('a'), hookup('hot a.start'))), [['stated', false]]);
    assert.deepEqual(endsOf(pickup('  conductors pink\n', coil('a'), hookup('hot pink'))), [['unknown', false]]);
    const other = pickup('  conductors pink\n', coil('a'), coil('b'), hookup('link pink a.start'));
    assert.deepEqual(endsOf(other), [
      ['stated', false],
      ['unknown', false],
    ]);
  });

  it('have taps in their nets, and are parted there from start to finish, by turns', () => {
    const text = pickup(
      coil('a', 'turns 5_000', 'start pink', 'finish grey', 'tap 3_000 turns orange', 'tap 1_000 turns blue'),
      coil('b', 'start white', 'finish black'),
      hookup('hot grey', 'link pink white', 'ground black', 'free orange blue'),
    );
    const netlist = netlistOf(text);
    const name = (net: number) => netlist.nets[net]?.nodes.find((node) => node.startsWith('lead:')) ?? '';
    assert.deepEqual(
      segmentsOf(netlist, name, 'neck ').map(({ source, fromTurn, toTurn, start, finish }) => [
        source,
        fromTurn,
        toTurn,
        start,
        finish,
      ]),
      [
        ['neck a[1]', 0, 1000, 'lead:pink', 'lead:blue'],
        ['neck a[2]', 1000, 3000, 'lead:blue', 'lead:orange'],
        ['neck a[3]', 3000, undefined, 'lead:orange', 'lead:grey'],
        ['neck b', 0, undefined, 'lead:pink', 'lead:black'],
      ],
    );
  });

  it('give what reaches two nets of a volt in each, by the resistances that are asked for', () => {
    // Two coils side by side: each gives what the other's resistance has of both.
    const text = pickup(
      coil('a', 'start pink', 'finish grey'),
      coil('b', 'start white', 'finish black'),
      hookup('hot grey black', 'ground pink white'),
    );
    const netlist = netlistOf(text);
    const { hot = -1, ground = -1 } = netlist;
    const shares = (ohm: Readonly<Record<string, number>>, red: number, black: number) =>
      [...(dcTransfers(netlist, ({ source }) => ohm[source] ?? 0, red, black)?.values() ?? [])].map((share) =>
        Number(share.toFixed(6)),
      );
    assert.deepEqual(shares({ a: 1000, b: 3000 }, hot, ground), [0.75, 0.25]);
    assert.deepEqual(shares({ a: 3000, b: 1000 }, hot, ground), [0.25, 0.75]);
    assert.deepEqual(shares({ a: 3000, b: 1000 }, ground, hot), [-0.25, -0.75]);
    const apart = netlistOf(
      pickup(
        '  shield bare\n',
        coil('a', 'start to bare', 'finish grey'),
        coil('b', 'start white', 'finish black'),
        hookup('hot grey', 'shield bare', 'ground white'),
      ),
    );
    // A shield and a ground that leave the pickup apart lie on one instrument's ground.
    const overShield = dcTransfers(apart, () => 1000, apart.hot ?? -1, apart.ground ?? -1);
    assert.deepEqual(
      [...(overShield ?? [])].map(([{ source }, share]) => [source, Math.round(share)]),
      [
        ['a', 1],
        ['b', 0],
      ],
    );
    const open = netlistOf(pickup(coil('a', 'start pink', 'finish grey'), hookup('hot grey')));
    assert.equal(
      dcTransfers(open, () => 1000, open.hot ?? -1, open.netOf('lead:nobody') ?? 99),
      undefined,
    );
  });
});

describe('a meter between two nets', () => {
  it('sees the coils that carry its current', () => {
    const netlist = netlistOf(
      pickup(
        coil('a', 'start a1', 'finish a2'),
        coil('b', 'start b1', 'finish b2'),
        coil('c', 'start c1', 'finish c2'),
        hookup('hot b1 c1', 'link a2 b2 c2', 'ground a1'),
      ),
    );
    const seen = (from: string, to: string) =>
      coilsBetween(netlist, [netlist.netOf(from) ?? -1, netlist.netOf(to) ?? -1]).map(({ name }) => name);
    assert.deepEqual(seen('lead:a1', 'lead:a2'), ['a']);
    assert.deepEqual(seen('hot', 'lead:a2'), ['b', 'c']);
    assert.deepEqual(seen('hot', 'ground'), ['a', 'b', 'c']);
    const loose = netlistOf(pickup(coil('a', 'start a1', 'finish a2'), coil('b', 'start b1', 'finish b2')));
    assert.deepEqual(coilsBetween(loose, [loose.netOf('lead:a1') ?? -1, loose.netOf('lead:b1') ?? -1]), []);
  });
});

describe('coils whose leads nobody traced', () => {
  const four = '  conductors violet grey turquoise pink\n';
  const windingsOf = (text: string) => {
    const netlist = netlistOf(text);
    const name = (net: number | undefined) =>
      net === undefined
        ? undefined
        : netlist.nets[net]?.nodes
            .filter((node) => !node.startsWith('coil:'))
            .sort()
            .join(' ');
    return netlist.windings.map(({ start, finish, ends, unseen }) => [
      name(start),
      name(finish),
      ends === 'from a kick' ? (unseen ? 'kick, unseen' : 'kick') : ends,
    ]);
  };

  it('lie on the pair that kicks, the black probe’s lead as the start', () => {
    const text = pickup(
      four,
      coil('a'),
      coil('b'),
      kicks('kick violet to grey at a approach positive', 'kick turquoise to pink at b approach negative'),
    );
    assert.deepEqual(windingsOf(text), [
      ['lead:grey', 'lead:violet', 'kick'],
      ['lead:pink', 'lead:turquoise', 'kick'],
    ]);
  });

  it('need no name where there is one coil', () => {
    const text = pickup('  conductors violet grey\n', coil('a'), kicks('kick violet to grey approach positive'));
    assert.deepEqual(windingsOf(text), [['lead:grey', 'lead:violet', 'kick']]);
    const two = pickup(four, coil('a'), coil('b'), kicks('kick violet to grey approach positive'));
    assert.deepEqual(
      windingsOf(two).map(([, , ends]) => ends),
      ['unknown', 'unknown'],
    );
  });

  it('keep to their first kick, and to leads that nothing else lies on', () => {
    const later = pickup(
      four,
      coil('a'),
      coil('b'),
      kicks('kick violet to grey at a approach positive', 'kick turquoise to pink at a approach positive'),
    );
    assert.deepEqual(windingsOf(later)[0], ['lead:grey', 'lead:violet', 'kick']);
    const placed = pickup(
      four,
      coil('a'),
      coil('b', 'start to violet', 'finish to pink'),
      kicks('kick violet to grey at a approach positive'),
    );
    assert.equal(windingsOf(placed)[0]?.[2], 'unknown');
    const traced = pickup(four, coil('a', 'start to violet'), kicks('kick turquoise to pink at a approach positive'));
    assert.equal(windingsOf(traced)[0]?.[2], 'stated');
    const same = pickup(four, coil('a'), kicks('kick violet to violet at a approach positive'));
    assert.equal(windingsOf(same)[0]?.[2], 'unknown');
  });

  it('of a closed pickup that kick on one pair lie between the two, one behind the other, whichever way round', () => {
    const text = (second: string) =>
      pickup(
        '  conductors violet grey\n',
        coil('a'),
        coil('b'),
        hookup('hot violet', 'ground grey'),
        kicks('kick violet to grey at a approach positive', `kick ${second} at b approach positive`),
      );
    for (const second of ['violet to grey', 'grey to violet', 'hot to ground', 'ground to hot'])
      assert.deepEqual(
        windingsOf(text(second)),
        [
          ['chassis ground lead:grey', '', 'kick, unseen'],
          ['', 'hot lead:violet', 'kick, unseen'],
        ],
        second,
      );
  });

  it('of a closed pickup with one coil lie between hot and ground', () => {
    const text = (line: string) =>
      pickup('  conductors violet grey\n', coil('a'), hookup('hot violet', 'ground grey'), kicks(line));
    assert.deepEqual(windingsOf(text('kick hot to ground approach positive')), [
      ['chassis ground lead:grey', 'hot lead:violet', 'kick'],
    ]);
    assert.deepEqual(windingsOf(text('kick ground to hot approach positive')), [
      ['hot lead:violet', 'chassis ground lead:grey', 'kick'],
    ]);
  });

  it('with one lead in common are two pairs, not one behind the other', () => {
    const text = pickup(
      four,
      coil('a'),
      coil('b'),
      kicks('kick violet to grey at a approach positive', 'kick violet to pink at b approach positive'),
    );
    assert.deepEqual(windingsOf(text), [
      ['lead:grey', 'lead:violet', 'kick'],
      ['lead:pink', 'lead:violet', 'kick'],
    ]);
    const crossed = pickup(
      four,
      coil('a'),
      coil('b'),
      kicks('kick violet to grey at a approach positive', 'kick grey to pink at b approach positive'),
    );
    assert.deepEqual(windingsOf(crossed), [
      ['lead:grey', 'lead:violet', 'kick'],
      ['lead:pink', 'lead:grey', 'kick'],
    ]);
  });

  it('are traced where the hookup names an end of theirs', () => {
    const text = pickup(
      four,
      coil('a'),
      hookup('hot a.start', 'ground grey'),
      kicks('kick violet to pink approach positive'),
    );
    assert.equal(windingsOf(text)[0]?.[2], 'stated');
  });

  it('of the same pickup before a work count where the coil was kept', () => {
    const reworked = (said: string) =>
      `pickup old {\n  conductors violet grey\n${coil('a')}${kicks('kick violet to grey at a approach positive')}}\n` +
      `pickup now reworks old {\n${coil('a', said)}}\n`;
    assert.deepEqual(windingsOf(reworked('kept'))[0], ['lead:grey', 'lead:violet', 'kick']);
    assert.equal(windingsOf(reworked('new'))[0]?.[2], 'unknown');
    const now = reworked('new').replace(
      /}\n$/,
      `  conductors violet grey\n${kicks('kick grey to violet at a approach positive')}}\n`,
    );
    assert.deepEqual(windingsOf(now)[0], ['lead:violet', 'lead:grey', 'kick']);
    const unnamed = (said: string) => reworked(said).replace(' at a', '');
    assert.deepEqual(windingsOf(unnamed('kept'))[0], ['lead:grey', 'lead:violet', 'kick']);
    assert.equal(windingsOf(unnamed('new'))[0]?.[2], 'unknown');
    // Of two coils it is nobody's.
    const two = `pickup old {\n  conductors violet grey\n${coil('a')}${coil('b')}${kicks('kick violet to grey approach positive')}}\n`;
    const both = `${two}pickup now reworks old {\n${coil('a', 'kept')}${coil('b', 'kept')}}\n`;
    assert.deepEqual(
      windingsOf(both).map(([, , how]) => how),
      ['unknown', 'unknown'],
    );
  });
});
