/** Files of photographs by their own bytes, and the copies of them that may leave the shop. */
import assert from 'node:assert/strict';
import type { Page } from 'playwright-core';
import { htmlPage } from '../../server/src/documents/html.ts';
import {
  cleanPhoto,
  dataUri,
  MOST_PHOTO_BYTES,
  type PhotoFile,
  photoFile,
} from '../../server/src/photos/photo-file.ts';
import { openTestBrowser, type TestBrowser } from '../host/browser.ts';
import { FORMATS, geotagged, plain, SECRETS, tiffWithPlace } from '../support/geotagged.ts';

const fileOf = (bytes: Uint8Array): PhotoFile => photoFile({ kind: 'bytes', bytes });

function reasonOf(bytes: Uint8Array): string {
  const file = fileOf(bytes);
  return 'reason' in file ? `${file.kind}: ${file.reason}` : file.kind;
}

function copyOf(bytes: Uint8Array): Buffer {
  const copy = cleanPhoto(bytes);
  assert.ok(copy);
  return Buffer.from(copy.bytes);
}

describe('the file of a photograph', () => {
  for (const format of FORMATS) {
    it(`${format}: is known by its bytes, with its size`, () => {
      const file = fileOf(plain(format));
      assert.ok(file.kind === 'photo');
      assert.deepEqual([file.format.toLowerCase().replace('jpeg', 'jpg'), file.width, file.height], [format, 64, 48]);
    });

    it(`${format}: lying on its side, width and height change places`, () => {
      const file = fileOf(geotagged(format, 6));
      assert.ok(file.kind === 'photo');
      assert.deepEqual([file.width, file.height], [48, 64]);
    });

    it(`${format}: cut off anywhere, it is told`, () => {
      const whole = plain(format);
      for (let length = 0; length < whole.length; length += 7)
        assert.match(reasonOf(whole.subarray(0, length)), /^unreadable: /, `${length} bytes`);
    });

    it(`${format}: with any byte changed, it is read or told, and never throws`, () => {
      const whole = geotagged(format, 3);
      for (let at = 0; at < whole.length; at += 1) {
        const changed = Buffer.from(whole);
        changed[at] = 0xff - (changed[at] ?? 0);
        assert.doesNotThrow(() => cleanPhoto(changed), `byte ${at}`);
      }
    });
  }

  it('that is something else is told', () => {
    assert.equal(reasonOf(Buffer.from('<svg/>')), 'unreadable: is no JPEG, PNG or WebP, whatever its name says');
    assert.equal(reasonOf(Buffer.alloc(0)), 'unreadable: is empty');
  });

  it('that is larger than a page can hold is told', () => {
    assert.match(reasonOf(Buffer.alloc(MOST_PHOTO_BYTES + 1)), /^too large: has 21 MB/);
    const poster = plain('png');
    poster.writeUInt32BE(40_000, 16);
    poster.writeUInt32BE(30_000, 20);
    assert.match(reasonOf(poster), /^too large: has 1200 megapixels/);
  });

  it('has another mark when it has changed', () => {
    const [a, b] = [fileOf(plain('jpg')), fileOf(geotagged('jpg', 1))];
    assert.ok(a.kind === 'photo' && b.kind === 'photo');
    assert.notEqual(a.mark, b.mark);
  });
});

describe('the copy of a photograph', () => {
  for (const format of FORMATS) {
    it(`${format}: holds nothing of place, camera and notes`, () => {
      const original = geotagged(format, 6);
      const copy = copyOf(original);
      for (const secret of SECRETS) {
        assert.ok(original.includes(secret), 'the original has it');
        assert.ok(!copy.includes(secret), secret.toString('latin1'));
      }
      assert.ok(!copy.includes(tiffWithPlace(6).subarray(8)), 'no directory of the camera');
    });

    it(`${format}: keeps which way up it is, and says it only where it is not upright`, () => {
      for (const orientation of [1, 2, 3, 4, 5, 6, 7, 8]) {
        const copy = copyOf(geotagged(format, orientation));
        // Exif 2.32: tag 0x0112, type 3 (short), count 1, then the value.
        const entry = Buffer.from([0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation]);
        assert.equal(copy.includes(entry), orientation !== 1, `orientation ${orientation}`);
      }
    });

    it(`${format}: of a copy is the copy`, () => {
      const copy = copyOf(geotagged(format, 8));
      assert.deepEqual(copyOf(copy), copy);
    });
  }
});

describe('in a browser, the copy of a photograph', function () {
  this.timeout(300_000);
  let browser: TestBrowser;
  let page: Page;
  before(async () => {
    browser = await openTestBrowser();
    page = await browser.context.newPage();
  });
  after(() => browser.close());

  const looks = (uri: string) =>
    page.evaluate(async (src) => {
      const image = new Image();
      image.src = src;
      await image.decode();
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [image.naturalWidth, image.naturalHeight];
      const context = canvas.getContext('2d');
      context?.drawImage(image, 0, 0);
      const data = context?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
      return { width: image.naturalWidth, height: image.naturalHeight, pixels: [...data].join() };
    }, uri);

  for (const format of FORMATS)
    it(`${format}: looks as the original does, pixel by pixel, whichever way up`, async () => {
      for (const orientation of [1, 3, 6]) {
        const original = geotagged(format, orientation);
        const copy = cleanPhoto(original);
        assert.ok(copy);
        const mime = copy.mime;
        const seen = await looks(dataUri(copy));
        assert.deepEqual(seen, await looks(`data:${mime};base64,${original.toString('base64')}`), `${orientation}`);
        assert.ok(seen.width * seen.height === 64 * 48 && seen.pixels.length > 64 * 48);
      }
    });

  it('is shown by a page of ours, under its policy, with its caption as words for it', async () => {
    const photo = cleanPhoto(geotagged('jpg', 6));
    assert.ok(photo);
    const caption = '"><script>alert(1)</script> leads';
    const html = await htmlPage({
      title: 'Photographs',
      language: 'en',
      css: 'p { margin: 0; }',
      body: [{ photo, caption }],
    });
    assert.ok(!html.includes('<script>'));
    await page.setContent(html);
    const [alt, width] = await page.evaluate(async () => {
      const image = document.querySelector('img');
      await image?.decode();
      return [image?.alt, image?.naturalWidth];
    });
    assert.deepEqual([alt, width], [caption, 48]);
  });
});
