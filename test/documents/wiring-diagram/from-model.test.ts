import assert from 'node:assert/strict';
import type { Analysis } from '../../../server/src/analysis/analysis-types.ts';
import { pickupPicture } from '../../../server/src/documents/wiring-diagram/from-model.ts';
import type { PickupPicture } from '../../../server/src/documents/wiring-diagram/picture.ts';
import { drawPickup } from '../../../server/src/documents/wiring-diagram/wiring-diagram.ts';
import { pickupParts } from '../../../server/src/features/drawn-parts.ts';
import { jointRows } from '../../../server/src/features/joint-rows.ts';
import { analyse } from '../../support/check-fixture.ts';
import { analysedSample, sampleFiles } from '../../support/sample-files.ts';
import { twoCoils, WITH_SHOP } from '../../support/shop.ts';
import { assertLegible } from './legible.ts';

describe('the picture of a pickup', () => {
  for (const { path } of sampleFiles()) {
    it(`samples/${path}: every pickup can be drawn and read, wide and narrow`, () => {
      const analysis = analysedSample(path);
      for (const analysed of analysis.pickups) {
        const picture = pickupPicture(analysis, analysed);
        for (const width of ['wide', 'narrow'] as const) assertLegible(drawPickup(picture, width));
      }
    });
  }

  /**
   * Two coils in series, signs worked out by hand from: string goes with direction · wind · pole, hum with direction · wind
   * (+1 counterclockwise, north-up, entered at the start). The screw coil is clockwise, north-up, and entered at its start.
   */
  const BY_HAND = [
    { slug: 'clockwise', pole: 'south-up', link: 'finish to finish', string: 'adds', hum: 'cancels' },
    { slug: 'clockwise', pole: 'south-up', link: 'finish to start', string: 'cancels', hum: 'adds' },
    { slug: 'counterclockwise', pole: 'south-up', link: 'finish to start', string: 'adds', hum: 'cancels' },
    { slug: 'counterclockwise', pole: 'south-up', link: 'finish to finish', string: 'cancels', hum: 'adds' },
    { slug: 'clockwise', pole: 'north-up', link: 'finish to start', string: 'adds', hum: 'adds' },
    { slug: 'clockwise', pole: 'north-up', link: 'finish to finish', string: 'cancels', hum: 'cancels' },
  ] as const;
  for (const { slug, pole, link, string, hum } of BY_HAND) {
    it(`clockwise north-up with ${slug} ${pole}, linked ${link}: string ${string}, hum ${hum}`, () => {
      const [hot, linked] = link === 'finish to finish' ? ['turquoise', 'orange'] : ['orange', 'turquoise'];
      const text = twoCoils('', { hookup: `hot ${hot}\n    link ${linked} grey\n    ground pink bare` })
        .replace('coil slug like screw {', `coil slug like screw {\n    wound ${slug}`)
        .replace('polarity south-up', `polarity ${pole}`);
      const { verdict } = onlyPicture(analyse(text, WITH_SHOP));
      assert.equal(verdict?.signal.heading, `String signal ${string}`);
      assert.equal(verdict?.hum.heading, `Hum ${hum}`);
    });
  }

  it('draws foil round its winding with the lead that it is tied to, and rings it where it lies on hot; the table names it', () => {
    const foiled = (lead: string, ground: string) =>
      analyse(
        twoCoils('', { hookup: `hot turquoise\n    link orange grey\n    ground ${ground}` })
          .replace('grey pink\n', 'grey pink yellow\n')
          .replace('  coil screw {', `  coil screw {\n    foil tied to ${lead}`)
          .replace('coil slug like screw {', 'coil slug like screw {\n    foil none'),
        WITH_SHOP,
      );
    const grounded = foiled('yellow', 'pink bare yellow');
    const picture = onlyPicture(grounded);
    const [screw, slug] = ['screw', 'slug'].map((name) => picture.coils.find(({ id }) => id === name));
    assert.deepEqual(screw?.foil, { part: 'foil:screw', description: 'foil tied to yellow, on ground' });
    assert.ok(screw?.captions.some(({ text }) => text === 'foil tied to yellow'));
    assert.equal(slug?.foil, undefined);
    assert.equal(picture.looseLeads.find(({ lead }) => lead.part === 'lead:yellow')?.inside, 'foil, screw');
    for (const width of ['wide', 'narrow'] as const) {
      const drawn = drawPickup(picture, width);
      assertLegible(drawn);
      assert.match(drawn.svg, /data-part="foil:screw"[\s\S]*?class="foil"/);
    }
    const [analysed] = grounded.pickups;
    assert.ok(analysed);
    assert.deepEqual(
      jointRows(analysed).find(({ leads }) => leads.includes('foil of the screw coil'))?.joint,
      'ground',
    );
    assert.ok(pickupParts(analysed).some(({ id, label }) => id === 'foil:screw' && label === 'foil of the screw coil'));

    const onHot = onlyPicture(foiled('turquoise', 'pink bare'));
    assert.deepEqual(onHot.findings.find(({ code }) => code === 'ground/metal-hot')?.rings, [{ metal: 'foil:screw' }]);
    for (const width of ['wide', 'narrow'] as const) assertLegible(drawPickup(onHot, width));
  });

  it('can be read however the four leads are joined, sound or not', () => {
    const leads = ['turquoise', 'orange', 'grey', 'pink'];
    const orders = leads.flatMap((a) =>
      leads.flatMap((b) =>
        leads.flatMap((c) =>
          new Set([a, b, c]).size === 3 ? [[a, b, c, ...leads.filter((d) => ![a, b, c].includes(d))]] : [],
        ),
      ),
    );
    assert.equal(orders.length, 24);
    for (const [a = '', b = '', c = '', d = ''] of orders) {
      for (const hookup of [
        `hot ${a}\n    link ${b} ${c}\n    ground ${d} bare`,
        `hot ${a} ${b}\n    ground ${c} ${d} bare`,
        `hot ${a} bare\n    link ${b} ${c}\n    ground ${d}`,
        `hot ${a}\n    ground ${b}\n    free ${c} ${d}`,
        `hot ${a}\n    link ${b} ${c} ${d}`,
        `hot ${a} ${b} ${c}\n    ground ${d}\n    shield bare`,
      ]) {
        const picture = onlyPicture(analyse(twoCoils('', { hookup }), WITH_SHOP));
        for (const width of ['wide', 'narrow'] as const) {
          try {
            assertLegible(drawPickup(picture, width));
          } catch (error) {
            assert.fail(`${hookup} (${width}): ${String(error)}`);
          }
        }
      }
    }
  });

  it('tells the path from ground to hot in one breath', () => {
    const { description } = onlyPicture(analyse(twoCoils(), WITH_SHOP));
    assert.match(
      description,
      /^From ground: pink, to the start of the screw coil, clockwise to its finish, grey, then orange, to the finish of the slug coil, counterclockwise to its start, turquoise, hot\. /,
    );
    assert.match(description, /String signal adds\. Hum cancels\.$/);
  });

  it('lays swapped leads out as they should be and lets them cross', () => {
    const text = twoCoils('', { hookup: 'hot orange\n    link turquoise grey\n    ground pink bare' });
    const { coils, findings } = onlyPicture(analyse(text, WITH_SHOP));
    const slug = coils.find(({ id }) => id === 'slug');
    assert.deepEqual(
      [slug?.entered, slug?.enteredAsLaidOut, slug?.start.mistakenNet, slug?.finish.mistakenNet],
      ['start', 'finish', 'slug.finish', 'slug.start'],
    );
    const [finding] = findings;
    assert.equal(finding?.code, 'phase/coils-cancel');
    assert.match(finding?.remedy ?? '', /^Swap the leads of the slug coil/);
    assert.deepEqual(finding?.rings, [
      { end: 'slug.start', at: 'net' },
      { end: 'slug.finish', at: 'net' },
    ]);
  });

  it('shows leads soldered to the wrong conductors as a crossing at the joints', () => {
    const text = twoCoils('', { hookup: 'hot turquoise\n    link orange grey\n    ground pink bare' })
      .replace('start to turquoise', 'start blue to orange')
      .replace('finish to orange', 'finish brown to turquoise');
    const slug = onlyPicture(analyse(text, WITH_SHOP)).coils.find(({ id }) => id === 'slug');
    assert.notEqual(slug?.start.mistakenJoint ?? slug?.start.mistakenNet, undefined);
  });

  it('shows a forgotten link as two open ends and where they should go', () => {
    const { coils, findings } = onlyPicture(
      analyse(twoCoils('', { hookup: 'hot turquoise\n    ground pink bare' }), WITH_SHOP),
    );
    assert.deepEqual(
      coils.map(({ finish }) => finish.mistakenNet),
      ['nowhere', 'nowhere'],
    );
    assert.deepEqual(
      findings.map(({ code }) => code),
      ['circuit/open'],
    );
  });

  it('draws a fault that no exchange of leads removes as it is', () => {
    const text = twoCoils().replace('polarity south-up', 'polarity north-up');
    const { coils } = onlyPicture(analyse(text, WITH_SHOP));
    assert.ok(
      coils.every(({ start, finish }) => start.mistakenNet === undefined && finish.mistakenJoint === undefined),
    );
  });

  it('states no start, finish or wind of a coil that only kicks have shown', () => {
    const analysis = analysedSample('foundling.pickup');
    const { coils, verdict } = onlyPicture(analysis);
    for (const { endsTraced, wound, pathTurns } of coils) {
      assert.deepEqual([endsTraced, wound], [false, undefined]);
      assert.notEqual(pathTurns, undefined);
    }
    assert.equal(verdict?.hum.heading, 'Hum cancels');
    // The conductors of one coil are those that the kick was taken between.
    const colours = coils.map(({ id, start, finish }) => [
      id,
      ...[start.conductor?.name, finish.conductor?.name].sort(),
    ]);
    assert.deepEqual(colours.sort(), [
      ['screw', 'pink', 'violet'],
      ['slug', 'grey', 'turquoise'],
    ]);
  });

  it('names every part as the places of the text are named', () => {
    const { coils, metal } = onlyPicture(analyse(twoCoils(), WITH_SHOP));
    const parts = [
      ...coils.flatMap(({ start, finish }) => [start.conductor?.part, finish.conductor?.part]),
      ...metal.map(({ part }) => part),
    ];
    assert.deepEqual(parts.sort(), [
      'lead:bare',
      'lead:grey',
      'lead:orange',
      'lead:pink',
      'lead:turquoise',
      'part:baseplate',
    ]);
  });
});

function onlyPicture(analysis: Analysis): PickupPicture {
  const [analysed] = analysis.pickups;
  assert.ok(analysed);
  return pickupPicture(analysis, analysed);
}
