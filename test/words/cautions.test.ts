import assert from 'node:assert/strict';
import { explanationOf } from '../../server/src/checks/explanation.ts';
import { codes } from '../../server/src/checks/pages.ts';
import { cautionsOf } from '../../server/src/words/cautions.ts';

const ALL = ['solder', 'enamel', 'magnets', 'magnetising', 'winder', 'wax', 'hearing', 'sweep'] as const;

describe('cautions', () => {
  it('name a distance at which the magnets of a pickup are below the limit for implants', () => {
    const [, cm] = /(\d+)\u202Fcm/.exec(cautionsOf('magnets').join(' ')) ?? [];
    const away = Number(cm) / 100;
    // On the axis of a dipole B = μ0 m / 2π r³ with m = Br V / μ0 (any textbook of magnetism): Br V / 2π r³.
    const field = (remanenceT: number, volumeM3: number) => (remanenceT * volumeM3) / (2 * Math.PI * away ** 3);
    const limitT = 0.5e-3; // ICNIRP guidelines on static fields, 2009 (recalled)
    const bar = 63.5e-3 * 12.7e-3 * 3.2e-3;
    const rods = 6 * (Math.PI / 4) * 5e-3 ** 2 * 18e-3;
    for (const each of [field(1.3, bar), field(1.3, rods)]) assert.ok(each > 0 && each < limitT, `${each} T`);
  });

  it('never say that anything is without danger, and each is said once', () => {
    const said = cautionsOf(...ALL, ...ALL);
    assert.equal(new Set(said).size, said.length);
    assert.doesNotMatch(said.join(' '), /\bsafe\b|\bcertified\b|\bcompliant\b|\blead:/i);
  });

  it('stand on the page of every finding whose remedy takes an iron, a magnet or a bath', () => {
    const warned = codes.filter((code) => /## Take care[\s\S]*not legal, medical/.test(explanationOf(code) ?? ''));
    for (const code of ['phase/coils-cancel', 'hum/not-cancelled', 'ground/metal-hot', 'circuit/open'] as const)
      assert.ok(warned.includes(code) && /iron/.test(explanationOf(code) ?? ''), code);
    assert.match(explanationOf('phase/position-cancels') ?? '', /Magnets pinch[\s\S]*Magnetising/);
    assert.match(explanationOf('potting/too-hot') ?? '', /burning wax/);
    for (const code of ['sweep/too-weak', 'sweep/loaded', 'sweep/circuit-differs'] as const)
      assert.match(explanationOf(code) ?? '', /headphones off the head[\s\S]*Phantom power off/, code);
    for (const code of ['unit/missing', 'sweep/file'] as const) assert.ok(!warned.includes(code), code);
  });
});
