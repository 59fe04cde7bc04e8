import assert from 'node:assert/strict';
import { fixAll, quickFixes } from '../../server/src/features/code-actions.ts';
import { refactorings } from '../../server/src/features/refactorings.ts';
import { SINGLE } from '../support/shop.ts';
import { applyEdits } from '../support/text-edits.ts';
import { analysed } from './analysed.ts';

const whole = (text: string) => ({ start: 0, end: text.length });

const codesOf = (text: string) => analysed(text).findings.map(({ code }) => code);
/** By the table of a wire a resistance is known to 4 %, beside a tolerance of 5 %. */
const OF_A_PLAN = ['target/undecided'];

describe('quick fixes', () => {
  it('a missing unit is offered, and once applied the finding is gone', () => {
    const text = SINGLE.replace('hookup {', 'target {\n    resistance 5.9\n  }\n  hookup {');
    const fixes = quickFixes(analysed(text), whole(text)).filter(({ finding }) => finding.code === 'unit/missing');
    assert.ok(fixes[0]);
    const corrected = applyEdits(text, fixes[0].edits);
    assert.match(corrected, /resistance 5\.9 kohm/);
    assert.deepEqual(codesOf(corrected), OF_A_PLAN);
  });

  it('belong to the place that is asked about', () => {
    const text = SINGLE.replace('plain-42\n', 'plian-42\n');
    assert.notEqual(quickFixes(analysed(text), whole(text)).length, 0);
    assert.deepEqual(quickFixes(analysed(text), { start: 0, end: 3 }), []);
  });
});

describe('fix all', () => {
  it('corrects the writing and leaves the build alone', () => {
    const text = SINGLE.replace('hookup {', 'target {\n    resistance 5.9\n  }\n  hookup {').replace(
      'cover none',
      'baseplate nickel-silver',
    );
    const corrected = applyEdits(text, fixAll(analysed(text)));
    assert.match(corrected, /resistance 5\.9 kohm/);
    assert.deepEqual(codesOf(corrected), ['ground/metal-floating', ...OF_A_PLAN]);
  });

  it('changes nothing in a file without such findings', () => {
    assert.deepEqual(fixAll(analysed(SINGLE)), []);
  });
});

describe('refactorings', () => {
  const measured = SINGLE.replace('    turns 7_700\n', '').replace(
    '  hookup {',
    '  readings "as received" 2026-03-02 {\n    main 5.86 kohm at 20 degC\n  }\n  hookup {',
  );

  it('inferred turns are written into the coil, with their uncertainty', () => {
    const at = measured.indexOf('coil main');
    const [turns] = refactorings(analysed(measured), { start: at, end: at }).filter(({ title }) => /turns/.test(title));
    assert.ok(turns);
    const corrected = applyEdits(measured, turns.edits);
    assert.match(corrected, /wire plain-42\n {4}turns \d+ ± \d+\n {4}wound/);
    assert.deepEqual(analysed(corrected).findings, []);
  });

  it('the computed resistance is written as the target', () => {
    const at = SINGLE.indexOf('pickup wren');
    const [target] = refactorings(analysed(SINGLE), { start: at, end: at });
    assert.ok(target);
    // It concerns the pickup as a whole: other lines offer nothing of it.
    const elsewhere = SINGLE.indexOf('strings 6');
    assert.deepEqual(refactorings(analysed(SINGLE), { start: elsewhere, end: elsewhere }), []);
    const corrected = applyEdits(SINGLE, target.edits);
    assert.match(corrected, /\n {2}target \{\n {4}resistance 5\.8\d kohm\n {2}\}\n\}\n$/);
    assert.deepEqual(codesOf(corrected), OF_A_PLAN);
  });

  const planned = SINGLE.replace(
    '  cover none',
    '  target {\n    resistance 6.2 kohm\n    resonance 4.2 kHz loaded\n  }\n  cover none',
  );

  it('turns that reach a target are written; the title says how many, and whether they fit', () => {
    const at = planned.indexOf('resistance 6.2');
    const titles = refactorings(analysed(planned), { start: at, end: at }).filter(({ title }) => /target/.test(title));
    assert.match(
      titles[0]?.title ?? '',
      /^Wind for the target resistance of 6\.2 kohm: main 8.\d{2}0 ± \d+.turns \(fits, \d+.% of the window; wire 1.\d{3} ± \d+.m, [\d.]+ ± [\d.]+.g\)$/,
    );
    assert.match(
      titles[1]?.title ?? '',
      /^Wind for the target resonance of 4\.2 kHz loaded: main \d.\d{3} ± \d+.turns/,
    );
    const corrected = applyEdits(planned, titles[0]?.edits ?? []);
    const reached = analysed(corrected).pickups[0]?.quick.resistance20COhm?.value ?? 0;
    // Written in tens, which is finer than what is known: five turns of 8,090.
    assert.ok(Math.abs(reached / 6200 - 1) < 5.5 / 8000, `${reached} ohm`);
  });

  it('turns for a target are not worked out where the cursor stands elsewhere', () => {
    const at = planned.indexOf('strings 6');
    assert.deepEqual(
      refactorings(analysed(planned), { start: at, end: at }).map(({ title }) => title),
      [],
    );
  });

  it('a planned coil is matched to the other by turn-area', () => {
    const pair = SINGLE.replace(
      '  cover none',
      `  coil second like main {
    turns 7_500
    polarity south-up
    start white
    finish black
  }
  cover none`,
    ).replace('ground grey', 'link grey white\n    ground black');
    const at = pair.indexOf('turns 7_500');
    const [match] = refactorings(analysed(pair), { start: at, end: at }).filter(({ title }) => /Match/.test(title));
    assert.match(
      match?.title ?? '',
      /^Match the main coil by turn-area, so that hum cancels: second 7.700 ± 120.turns \(fits/,
    );
    assert.match(applyEdits(pair, match?.edits ?? []), /coil second like main \{\n {4}turns 7_700\n/);
  });

  it('nothing is offered outside of a pickup', () => {
    assert.deepEqual(refactorings(analysed(SINGLE), { start: 0, end: 0 }), []);
  });
});
