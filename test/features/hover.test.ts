import assert from 'node:assert/strict';
import { language } from '../../grammar/src/schema/index.ts';
import { hover } from '../../server/src/features/hover.ts';
import { escapeMarkdown, toMarkdown, toPlainText } from '../../server/src/features/rich-text.ts';
import { signatureHelp } from '../../server/src/features/signature-help.ts';
import { atCursor, SINGLE } from './analysed.ts';

const hoverAt = (marked: string): string => {
  const { analysis, offset } = atCursor(marked);
  return toPlainText(hover(analysis, offset)?.text ?? []);
};

describe('hover', () => {
  it('a coil tells every computed value with its uncertainty and what it rests on', () => {
    const text = hoverAt(SINGLE.replace('coil main', 'coil ma‸in'));
    assert.match(text, /resistance at 20\u202f°C: 5\.\d+ ± 0\.\d+\u202fkΩ \(computed: .*packing 0\.66/);
    assert.match(text, /wire length: 1\u202f\d{3} ± \d+\u202fm/);
    assert.match(text, /turns: 7\u202f700 turns|turns: 7\u202f700 ± \d+ turns/);
  });

  it('a pickup tells what is between hot and ground', () => {
    assert.match(
      hoverAt(SINGLE.replace('pickup wren', 'pickup w‸ren')),
      /resistance hot to ground at 20\u202f°C: 5\.\d+ ± /,
    );
  });

  it('a coil tells field, spindle, winding time, and what would narrow its numbers most', () => {
    const text = hoverAt(SINGLE.replace('coil main', 'coil ma‸in'));
    assert.match(text, /field at the string: \d+ ± \d+\u202fmT \(computed: alnico-5 rods/);
    assert.match(text, /spindle, seen facing it: clockwise, top toward it/);
    assert.match(text, /winding time: 9\.6\u202fmin \(800 rpm, assumed/);
    assert.match(
      text,
      /What would narrow it most\s+resistance at 20\u202f°C: \d+\u202f% wire plain-42 \(measure some metres/,
    );
  });

  it('a pickup tells its inductance, capacitance and resonance under the load it names', () => {
    const text = hoverAt(SINGLE.replace('pickup wren', 'pickup w‸ren'));
    assert.match(text, /inductance: 2\.\d+ ± 0\.\d+\u202fH/);
    assert.match(text, /resonance: \d\.\d+ ± 0\.\d+\u202fkHz \(.*load: 500.kΩ volume and tone/);
  });

  it('a magnet in a pickup tells what each other one in scope would change', () => {
    const text = hoverAt(`use "parts.pickup"
magnet other like bar-5 {
  material alnico-2
}
bobbin low like rod-six {
  pole slug steel 4.8 x 12.5 mm
}
pickup wren {
  coil main {
    bobbin low
    wire plain-42
    turns 5_000
    start grey
    finish violet
  }
  coil second like main {
    start white
    finish black
  }
  magnet bar‸-5 north toward main
  hookup {
    hot violet
    link grey white
    ground black
  }
}
`);
    assert.match(text, /field at the string over main: \d+ ± \d+\u202fmT/);
    assert.match(
      text,
      /with other instead: output −\d\.\d ± \d\.\d\u202fdB \(field .*pull on the string × 0\.\d+ ± 0\.\d+/,
    );
    assert.match(text, /charged again/);
  });

  it('a pickup of unequal coils is told with matched ones beside it, one of equal coils is not', () => {
    const text = (turns: number) =>
      hoverAt(`use "parts.pickup"
pickup wr‸en {
  coil main {
    bobbin rod-six
    wire plain-42
    turns 5_000
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  coil second like main {
    turns ${turns}
    polarity south-up
    start white
    finish black
  }
  hookup {
    hot violet
    link grey white
    ground black
  }
}
`);
    assert.match(text(5500), /Matched beside it: second with 5\u202f\d{3} turns instead of 5\u202f500/);
    assert.match(text(5500), /level at 100\u202fHz: [+]\d.* \(as built [+]\d.* a difference of \+\d+/);
    assert.doesNotMatch(text(5000), /Matched beside/);
  });

  it('a fact tells its meaning, its pattern and an example', () => {
    const text = hoverAt(SINGLE.replace('packing', 'pack‸ing'));
    assert.match(text, /area of copper and enamel/);
    assert.ok(text.includes(`Left out: ${language.coil.facts.packing.assumed}.`));
  });

  it('a name shows its declaration, from another file too', () => {
    assert.match(hoverAt(SINGLE.replace('bobbin rod-six', 'bobbin rod-‸six')), /core 60\.0 x 5\.8 mm/);
  });

  it('a finding brings its code', () => {
    assert.match(hoverAt(SINGLE.replace('hot violet', 'hot viol‸ett')), /lead\/undeclared/);
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
