import { pickupFigures, positionFigures } from '/tmp/wt/outside/test/independent/signed-sources.ts';
import {
  instrumentText,
  pickupText,
  randomInstrument,
  randomPickup,
  selectionText,
} from '/tmp/wt/outside/test/independent/structure.ts';
import { analyse } from '/tmp/wt/outside/test/support/check-fixture.ts';

const N = Number(process.argv[2] ?? 200),
  M = Number(process.argv[3] ?? 40),
  show = Number(process.argv[4] ?? 3);
const bad: Record<string, { seed: number; text: string }[]> = {};
const note = (k: string, seed: number, text: string) => {
  const list = bad[k] ?? [];
  bad[k] = list;
  list.push({ seed, text });
};
const close = (a: number | undefined, b: number | undefined) =>
  a === b || (a !== undefined && b !== undefined && (Math.abs(a - b) < 0.8 || (a < -20 && b < -20)));
const SH = ['one', 'two', 'three', 'four', 'stack', 'two stacks', 'tapped', 'two, tapped', 'split', 'dummy'];
let t = 0,
  u = 0,
  compared = 0;
for (let seed = 1; seed <= N; seed++) {
  const p = randomPickup(seed);
  const text = pickupText(p);
  let a = performance.now();
  const an = analyse(text);
  const pk = an.pickups[0]!;
  const e = pk.estimates();
  t += performance.now() - a;
  a = performance.now();
  const f = pickupFigures(p);
  u += performance.now() - a;
  const shape = SH[seed % 10];
  const errs = an.findings.filter((x) => /^(syntax|unit|name|value)\//.test(x.code));
  if (errs.length) note('errors', seed, errs.map((x) => x.message).join());
  const r = e.resistance20COhm;
  const ro = r === null ? null : r?.value;
  compared++;
  if (ro === null ? f.ohm !== null : f.ohm === null || ro === undefined || Math.abs(ro / f.ohm - 1) > 1e-3)
    note(`ohm ${shape}`, seed, `${ro} vs ${f.ohm}`);
  if (e.phase !== f.phase) note(`phase ${shape}`, seed, `${e.phase} vs ${f.phase}`);
  if (!close(e.signalDb?.value, f.signalDb)) note(`signal ${shape}`, seed, `${e.signalDb?.value} vs ${f.signalDb}`);
  if (!close(e.humDb?.value, f.humDb)) note(`hum ${shape}`, seed, `${e.humDb?.value} vs ${f.humDb}`);
}
console.log('product ms', t, 'model ms', u);
t = 0;
u = 0;
for (let seed = 1; seed <= M; seed++) {
  const i = randomInstrument(7000 + seed);
  const text = instrumentText(i);
  let a = performance.now();
  const an = analyse(text);
  const ins = an.instruments[0];
  const errs = an.findings.filter((x) => /^(syntax|unit|name|value)\//.test(x.code));
  if (errs.length) note('i-errors', seed, errs.map((x) => x.message).join());
  t += performance.now() - a;
  i.positions.forEach((pos, k) => {
    a = performance.now();
    const e = ins!.positions()[k]!;
    t += performance.now() - a;
    a = performance.now();
    const f = positionFigures(i, pos);
    u += performance.now() - a;
    const what = `${selectionText(pos)} | ${i.controls.map((c) => c.kind + (c.slot ?? '')).join()}`;
    const r = e.resistanceOhm;
    const ro = r === null ? null : r?.value;
    compared++;
    if (ro === null ? f.ohm !== null : f.ohm === null || ro === undefined || Math.abs(ro / f.ohm - 1) > 1e-3)
      note(`pos ohm`, seed, `${ro} vs ${f.ohm} ${what}`);
    if (e.phase !== f.phase) note(`pos phase`, seed, `${e.phase} vs ${f.phase} ${what}`);
    if (!close(e.signalDb?.value, f.signalDb))
      note(`pos signal`, seed, `${e.signalDb?.value} vs ${f.signalDb} ${what}`);
    if (!close(e.humDb?.value, f.humDb)) note(`pos hum`, seed, `${e.humDb?.value} vs ${f.humDb} ${what}`);
    if (!close(e.levelDb?.value, f.levelDb)) note(`pos level`, seed, `${e.levelDb?.value} vs ${f.levelDb} ${what}`);
  });
}
console.log('product ms', t, 'model ms', u, 'compared', compared);
for (const [k, list] of Object.entries(bad)) {
  console.log(`${k}: ${list.length}`);
  for (const x of list.slice(0, show)) console.log('   ', x.seed, x.text);
}
