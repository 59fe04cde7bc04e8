import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import path from 'node:path';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { hover } from '../../server/src/features/hover.ts';
import { escapeMarkdown, toMarkdown, toPlainText } from '../../server/src/features/rich-text.ts';
import { signatureHelp } from '../../server/src/features/signature-help.ts';
import { analysedSample } from '../support/sample-files.ts';
import { SINGLE, twoCoils, WITH_SHOP } from '../support/shop.ts';
import { assertStored } from '../support/stored.ts';
import { analysed, atCursor } from './analysed.ts';

/** The cursor stands in a word of the text. */
const at = (word: string, text = SINGLE): string => {
  assert.ok(text.includes(word), word);
  return text.replace(word, `${word.slice(0, -1)}‸${word.slice(-1)}`);
};

const hoverAt = (marked: string): string => {
  const { analysis, offset } = atCursor(marked, WITH_SHOP);
  return toMarkdown(hover(analysis, offset)?.text ?? []);
};

/** Two coils; those of equal turns need no matching. */
const pair = (turns: number, magnet = ''): string => `use "parts.pickup"
magnet other like bar-5 {
  material alnico-2
}
bobbin low like rod-six {
  pole slug steel 4.8 x 12.5 mm
}
pickup wren {
  coil main {
    bobbin ${magnet === '' ? 'rod-six' : 'low'}
    wire plain-42
    turns 5_000
${magnet === '' ? '    wound clockwise\n    polarity north-up\n' : ''}    start grey
    finish violet
  }
  coil second like main {
${magnet === '' ? `    turns ${turns}\n    polarity south-up\n` : ''}    start white
    finish black
  }
${magnet}  hookup {
    hot violet
    link grey white
    ground black
  }
}
`;

/** Two coils of 5,000 turns, with what was read of them. */
const READ = twoCoils(`  readings "bench" {
    room 23 degC
    screw 4.05 kohm
    slug 3.40 kohm at 70 degF
    kick grey to pink at screw approach positive
    compass slug north-up
    hot to ground 8.1 kohm
  }
`);

const PAGES = path.join(import.meta.dirname, 'hovers');

/** Whole hovers, as an editor gets them; each is a page in `hovers/`. */
const HOVERS: Readonly<Record<string, string>> = {
  'a coil': at('coil main'),
  'a pickup': at('pickup wren'),
  'a pickup of unequal coils': at('pickup wren', pair(5_500)),
  'a pickup of equal coils': at('pickup wren', pair(5_000)),
  'a magnet': at('magnet bar-5', pair(5_000, '  magnet bar-5 north toward main\n')),
  'a fact': at('packing'),
  'a name from another file': at('bobbin rod-six'),
  'a reading that agrees': at('4.05', READ),
  'a reading that does not agree': at('3.40', READ),
  'a reading of both coils': at('8.1', READ),
  'a reading of inductance': at(
    'ground 4.1 H',
    READ.replace('    compass', '    inductance hot to ground 4.1 H at 1 kHz\n    compass'),
  ),
  'a kick': at('approach', READ),
  'a compass': at('slug north-up', READ),
  'a lead that leaves the pickup': at('turquoise', READ),
  'a lead in a joint': at('link orange', READ),
  'the end of a coil': at('hot screw.finish', READ.replace('hot turquoise', 'hot screw.finish')),
  'a lead inside': at('start gold', READ.replace('start to pink', 'start gold to pink')),
  'a value': at('3.40 kohm', READ),
  'a temperature': at('70 degF', READ),
  'a winding direction': at('wound clockwise', READ),
  'a pole': at('polarity north-up', READ),
  'a metal': at('nickel-silver', READ),
  'a magnet grade': at('alnico-2', pair(5_000)),
  'a spool': at('spool RYD-W7', twoCoils()),
  'like and what it brings': at('like screw', READ).replace('like scre‸w', 'li‸ke screw'),
  'a used file': at('use "parts.pickup', SINGLE),
  'a finding': at('hot violett', SINGLE.replace('hot violet', 'hot violett')),
};

describe('hover', () => {
  const pageOf = (name: string) => `${name.replaceAll(' ', '-')}.md`;
  for (const [name, marked] of Object.entries(HOVERS)) {
    it(`of ${name}`, () => assertStored(path.join(PAGES, pageOf(name)), `${hoverAt(marked)}\n`));
  }

  it('has no page of nothing', () =>
    assert.deepEqual(readdirSync(PAGES).sort(), Object.keys(HOVERS).map(pageOf).sort()));

  it('of a reading at the jack says what the position should read', () => {
    const analysis = analysedSample('bramblewick.pickup', (text) =>
      text.replace(/\n\}\s*(# expect[\s\S]*)?$/, '\n  readings "fitted" {\n    position 1 1.00 kohm\n  }\n}\n'),
    );
    const text = toPlainText(hover(analysis, analysis.text.indexOf('1.00 kohm'))?.text ?? []);
    assert.match(
      text,
      /expected: \d+\.\d+ ± \d+\.\d+\u202fkΩ at \d+\u202f°C \(pickups, pots and wiring, the controls full up\)/,
    );
    assert.match(text, /It does not agree: all limits together, .* may be read\./);
  });

  it('of a spool counts the coils of every spec that names it', () => {
    const shop = { 'shop.pickup': WITH_SHOP['shop.pickup'].replace('spool RYD-W7 {', 'spool RYD-W7 {\n  left 100 g') };
    const { analysis, offset } = atCursor(at('spool RYD-W7', twoCoils()), shop);
    const text = (among?: readonly Analysis[]) => toPlainText(hover(analysis, offset, among)?.text ?? []);
    // Two coils here, two in each other file.
    assert.match(text(), /on the spool: 100 g; \d+\u202fg for 2 coils/);
    assert.match(text([analysis, analysed(twoCoils(), shop)]), /on the spool: 100 g; \d+\u202fg for 4 coils/);
  });

  it('of white space and of nothing there is none', () => {
    assert.equal(hoverAt(SINGLE.replace('\n\npickup', '\n‸\npickup')), '');
    assert.equal(hoverAt('‸'), '');
  });

  it('what a user typed is never markup', () => {
    assert.equal(escapeMarkdown('<b>[x](y)</b> *a*\n# b'), '&lt;b\\>\\[x\\]\\(y\\)&lt;/b\\> \\*a\\* \\# b');
    const page = toMarkdown([{ kind: 'spec', text: 'note "```\\n[x](command:y)"' }]);
    assert.match(page, /^````pickup\n/);
  });
});

describe('signature help', () => {
  it("the line's pattern, and the part that is next", () => {
    const { analysis, offset } = atCursor(SINGLE.replace('wound clockwise', 'wound ‸'));
    const signature = signatureHelp(analysis, offset);
    assert.equal(signature?.label, 'wound clockwise|counterclockwise');
    const active = signature.parameters[signature.active ?? -1];
    assert.equal(signature.label.slice(active?.start, active?.end), 'clockwise|counterclockwise');
  });
});
