import assert from 'node:assert/strict';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { findBrowser } from '../host/browser.ts';
import { geotagged, SECRETS } from '../support/geotagged.ts';
import { Shell } from './shell.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');

describe('cards', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(SAMPLES, shell.folder, { recursive: true });
  });
  after(() => shell.remove());

  it('writes a page for each card, and names each', async () => {
    const { code, stdout, stderr } = await shell.run(['cards', 'hesk-neck.pickup', '-o', 'out']);
    assert.deepEqual([code, stderr], [0, '']);
    const named = [
      'winding-hesk-neck-screw',
      'winding-hesk-neck-slug',
      'bench-hesk-neck',
      'wiring-hesk-neck',
      'potting-hesk-neck',
      'hand-over-hesk-neck',
      'label-hesk-neck',
    ].map((name) => `${name}.html`);
    assert.equal(stdout, named.map((name) => `out/${name}\n`).join(''));
    assert.deepEqual(readdirSync(shell.path('out')).sort(), [...named].sort());
  });

  it('speaks the language that it is asked for', async () => {
    const card = ['--card', 'hand-over'];
    const { code } = await shell.run(['cards', 'withen-bridge.pickup', '-o', 'german', ...card, '--language', 'de']);
    const html = readFileSync(shell.path('german/hand-over-withen-bridge.html'), 'utf8');
    assert.equal(code, 0);
    assert.match(html, /<html lang="de">.*Behaltene Teile.*3,925\u202FkΩ bei 20\u202F°C/s);
    const refused = await shell.run(['cards', 'withen-bridge.pickup', '-o', 'other', ...card, '--language', 'tlh']);
    assert.match(refused.stderr, /--language .*en, de|en or de/);
  });

  it('name the spec by its path in the workspace, never by where one machine keeps it', async () => {
    mkdirSync(shell.path('shop/.git'), { recursive: true });
    mkdirSync(shell.path('shop/bench'));
    mkdirSync(shell.path('elsewhere'));
    cpSync(shell.path('hesk-neck.pickup'), shell.path('shop/bench/hesk-neck.pickup'));
    const spec = shell.path('shop/bench/hesk-neck.pickup');
    for (const words of [[spec], [spec, '--root', shell.path('shop')]]) {
      const { code } = await shell.run(['cards', ...words, '-o', 'elsewhere', '--card', 'label,wiring', '--force']);
      assert.equal(code, 0);
      for (const name of ['label', 'wiring']) {
        const html = readFileSync(shell.path(`elsewhere/${name}-hesk-neck.html`), 'utf8');
        assert.ok(!html.includes(shell.folder), name);
      }
      assert.match(readFileSync(shell.path('elsewhere/wiring-hesk-neck.html'), 'utf8'), />bench\/hesk-neck\.pickup</);
    }
  });

  it('says what is left out, and why', async () => {
    const { code, stdout, stderr } = await shell.run([
      'cards',
      'ottlewick-neck.pickup',
      '-o',
      'kept',
      '--card',
      'winding,potting',
    ]);
    assert.equal(code, 0);
    assert.equal(stdout, 'kept/winding-ottlewick-neck-screw.html\n');
    assert.match(stderr, /no winding card of ottlewick-neck, slug coil: no turns are stated/);
    assert.match(stderr, /no potting card of ottlewick-neck: no potting is stated/);
  });

  it('replaces nothing unless asked, and then writes nothing at all', async () => {
    await shell.run(['cards', 'hesk-neck.pickup', '-o', 'twice', '--card', 'label']);
    const { code, stdout, stderr } = await shell.run([
      'cards',
      'hesk-neck.pickup',
      '-o',
      'twice',
      '--card',
      'bench,label',
    ]);
    assert.deepEqual([code, stdout], [2, '']);
    assert.match(stderr, /twice\/label-hesk-neck\.html: is already there; --force replaces it; nothing was written\n$/);
    assert.deepEqual(readdirSync(shell.path('twice')), ['label-hesk-neck.html']);
    assert.equal((await shell.run(['cards', 'hesk-neck.pickup', '-o', 'twice', '--card', 'label', '--force'])).code, 0);
  });

  it('prints resistances for the temperature of the day', async () => {
    const read = async (room: string) => {
      const { code } = await shell.run([
        'cards',
        'hesk-neck.pickup',
        '-o',
        'warm',
        '--card',
        'bench',
        '--room',
        room,
        '--force',
      ]);
      assert.equal(code, 0);
      return readFileSync(shell.path('warm/bench-hesk-neck.html'), 'utf8');
    };
    // Copper, 0.393 % a kelvin (IEC 60028): the slug coil's 4.054 kohm at 20 degC reads 4.10 at 23 and 4.21 at 30 degC.
    assert.match(await read('23degC'), /printed for 23\u202F°C[\s\S]*<td class="n x">4\.10<\/td>/);
    assert.match(await read('86 degF'), /printed for 30\u202F°C[\s\S]*<td class="n x">4\.21<\/td>/);
    const { code, stderr } = await shell.run(['cards', 'hesk-neck.pickup', '-o', 'warm', '--room', 'warm']);
    assert.equal(code, 2);
    assert.match(stderr, /--room warm: a temperature from -20 to 60 °C is needed, as 23degC\n$/);
  });

  it('takes the fields that the shop wants on a hand-over card', async () => {
    const words = [
      '--card',
      'hand-over',
      '--hand-over',
      'work,contact',
      '--field',
      'contact: Ruddle Yard',
      '--field',
      'Tax number',
    ];
    assert.equal((await shell.run(['cards', 'hesk-neck.pickup', '-o', 'fields', ...words])).code, 0);
    const html = readFileSync(shell.path('fields/hand-over-hesk-neck.html'), 'utf8');
    assert.match(html, /Ruddle Yard/);
    assert.match(html, /<dt>Tax number<\/dt><dd><\/dd>/);
    assert.doesNotMatch(html, /Old parts returned/);
  });

  it('puts photographs on the hand-over card only where asked, and without what the camera wrote', async () => {
    const original = geotagged('jpg', 6);
    writeFileSync(shell.path('photos/before-joints.jpg'), original);
    const card = async (folder: string, ...words: string[]): Promise<string> => {
      await shell.run(['cards', 'hesk-neck.pickup', '-o', folder, '--card', 'hand-over', ...words]);
      return readFileSync(shell.path(`${folder}/hand-over-hesk-neck.html`), 'utf8');
    };
    assert.doesNotMatch(await card('without-photos'), /<img /);
    const html = await card('with-photos', '--photos');
    const [copy = '', ...others] = [
      ...html.matchAll(/<img alt="leads before the joints"[^>]* src="data:image\/jpeg;base64,([^"]+)"/g),
    ].map(([, base64 = '']) => base64);
    assert.equal(others.length, 0);
    const bytes = Buffer.from(copy, 'base64');
    assert.ok(bytes.length > 1000);
    for (const secret of SECRETS) assert.ok(original.includes(secret) && !bytes.includes(secret));
    assert.match(html, /all joints made, the cover still off/);
    assert.match(html, /Content-Security-Policy" content="default-src 'none'; [^"]*img-src data:;/);
  });

  it('tells the nearest right name', async () => {
    const wrong = async (...words: string[]) =>
      (await shell.run(['cards', 'quorl.pickup', '-o', 'none', ...words])).stderr;
    assert.match(await wrong('--card', 'winding,benhc'), /--card benhc: did you mean bench\?/);
    assert.match(await wrong('--pickup', 'quorl-nek'), /did you mean quorl-neck\?/);
    assert.match((await shell.run(['cards', 'quorl.pickup'])).stderr, /cards needs a folder to write into: -o DIR/);
    assert.equal(existsSync(shell.path('none')), false);
  });

  it('says what --pdf needs where no browser is at hand', async () => {
    const { code, stderr } = await shell.run(['cards', 'hesk-neck.pickup', '-o', 'none', '--pdf'], {
      environment: { CHROMIUM: '/nowhere/chromium' },
    });
    assert.equal(code, 2);
    assert.match(stderr, /--pdf needs Chromium or Chrome: install one, or set CHROMIUM to its path\n$/);
    assert.equal(existsSync(shell.path('none')), false);
  });

  it('prints a PDF beside the page', async () => {
    const browser = findBrowser();
    assert.ok(browser, 'install Chromium or Chrome (or set CHROMIUM to its path), then run this again');
    const { code, stdout } = await shell.run(['cards', 'hesk-neck.pickup', '-o', 'pdf', '--card', 'label', '--pdf'], {
      environment: { CHROMIUM: browser },
    });
    assert.deepEqual([code, stdout], [0, 'pdf/label-hesk-neck.html\npdf/label-hesk-neck.pdf\n']);
    // ISO 32000-1, 7.5.2: the header of a PDF file.
    assert.equal(readFileSync(shell.path('pdf/label-hesk-neck.pdf')).subarray(0, 5).toString('latin1'), '%PDF-');
  }).timeout(300_000);
});
