/**
 * Made-up camera files: a real picture (64 by 48 pixels, painted for these tests) with what a camera writes beside it. The Exif block
 * is laid out by hand from Exif 2.32 and TIFF 6.0.
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { crc32 } from 'node:zlib';

export const FORMATS = ['jpg', 'png', 'webp'] as const;
export type Format = (typeof FORMATS)[number];

export const plain = (format: Format): Buffer =>
  readFileSync(path.join(import.meta.dirname, '../photos', `plain.${format}`));

/** What must never leave the shop: words and figures of the block below, as they stand in the bytes. */
export const SECRETS: readonly Buffer[] = [
  Buffer.from('Invented Camera 7'),
  // 53 degrees, 27 minutes, 41.25 seconds north as rationals.
  rationals([53, 1], [27, 1], [4125, 100]),
  Buffer.from('bench by the window'),
];

function rationals(...pairs: readonly (readonly [number, number])[]): Buffer {
  const made = Buffer.alloc(8 * pairs.length);
  for (const [index, [above, below]] of pairs.entries()) {
    made.writeUInt32BE(above, 8 * index);
    made.writeUInt32BE(below, 8 * index + 4);
  }
  return made;
}

/** TIFF, most significant byte first: camera, orientation, and a GPS directory with latitude and its letter. */
export function tiffWithPlace(orientation: number): Buffer {
  const [camera = Buffer.alloc(0), latitude = Buffer.alloc(0)] = SECRETS;
  const name = Buffer.concat([camera, Buffer.alloc(1)]);
  const nameAt = 8 + 2 + 3 * 12 + 4;
  const gpsAt = nameAt + name.length + (name.length % 2);
  const latitudeAt = gpsAt + 2 + 2 * 12 + 4;
  const entry = (tag: number, type: number, count: number, value: number | Buffer): Buffer => {
    const made = Buffer.alloc(12);
    made.writeUInt16BE(tag, 0);
    made.writeUInt16BE(type, 2);
    made.writeUInt32BE(count, 4);
    if (typeof value === 'number') made.writeUInt32BE(value, 8);
    else value.copy(made, 8);
    return made;
  };
  const directory = (...entries: readonly Buffer[]): Buffer =>
    Buffer.concat([Buffer.from([0, entries.length]), ...entries, Buffer.alloc(4)]);
  return Buffer.concat([
    Buffer.from('4d4d002a00000008', 'hex'),
    directory(
      entry(0x0110, 2, name.length, nameAt),
      entry(0x0112, 3, 1, Buffer.from([0, orientation])),
      entry(0x8825, 4, 1, gpsAt),
    ),
    name,
    Buffer.alloc(name.length % 2),
    directory(entry(1, 2, 2, Buffer.from('N')), entry(2, 5, 3, latitudeAt)),
    latitude,
  ]);
}

/** The picture with that block, a note in words, and, in a JPEG, a second picture with the block behind the end. */
export function geotagged(format: Format, orientation: number): Buffer {
  const tiff = tiffWithPlace(orientation);
  const [, , note = Buffer.alloc(0)] = SECRETS;
  const picture = plain(format);
  switch (format) {
    case 'jpg': {
      const segment = (marker: number, content: Buffer): Buffer => {
        const head = Buffer.from([0xff, marker, 0, 0]);
        head.writeUInt16BE(content.length + 2, 2);
        return Buffer.concat([head, content]);
      };
      const exif = segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]));
      const words = segment(0xe1, Buffer.concat([Buffer.from('http://ns.adobe.com/xap/1.0/\0', 'latin1'), note]));
      const captions = segment(0xed, Buffer.concat([Buffer.from('Photoshop 3.0\0', 'latin1'), note]));
      const comment = segment(0xfe, note);
      const camera = [picture.subarray(0, 2), exif, words, captions, comment, picture.subarray(2)];
      return Buffer.concat([...camera, picture.subarray(0, 2), exif, picture.subarray(2)]);
    }
    case 'png': {
      const chunk = (name: string, content: Buffer): Buffer => {
        const body = Buffer.concat([Buffer.from(name, 'latin1'), content]);
        const made = Buffer.alloc(body.length + 8);
        made.writeUInt32BE(content.length, 0);
        body.copy(made, 4);
        made.writeUInt32BE(crc32(body), 4 + body.length);
        return made;
      };
      const text = (name: string): Buffer => chunk(name, Buffer.concat([Buffer.from('Comment\0', 'latin1'), note]));
      const headEnd = 8 + 25;
      const notes = [chunk('eXIf', tiff), text('tEXt'), text('iTXt'), text('zTXt'), chunk('tIME', note)];
      return Buffer.concat([picture.subarray(0, headEnd), ...notes, picture.subarray(headEnd), tiff]);
    }
    case 'webp': {
      const chunk = (name: string, content: Buffer): Buffer => {
        const head = Buffer.from(`${name}....`, 'latin1');
        head.writeUInt32LE(content.length, 4);
        return Buffer.concat([head, content, Buffer.alloc(content.length % 2)]);
      };
      // Flags: Exif and XMP; the canvas less one, in three bytes each.
      const extended = chunk('VP8X', Buffer.from([0x0c, 0, 0, 0, 63, 0, 0, 47, 0, 0]));
      const own = picture.subarray(12);
      const body = Buffer.concat([
        Buffer.from('WEBP'),
        extended,
        own.subarray(own.indexOf('VP8 ')),
        chunk('EXIF', tiff),
        chunk('XMP ', note),
      ]);
      return chunk('RIFF', body);
    }
  }
}
