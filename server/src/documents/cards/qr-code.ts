/** A code that a telephone reads: QR, ISO/IEC 18004, as one path of squares with its quiet zone of four modules. */
import qrcode from 'qrcode-generator';
import { element, path, rect, type SvgElement } from '../svg.ts';

/** More bytes make a code too fine for a label printed at the bench. */
const MOST_BYTES = 200;

/** `undefined` where the text is too long to be read from a label. */
export function qrCode(text: string, label: string): SvgElement | undefined {
  const bytes = new TextEncoder().encode(text);
  if (bytes.length > MOST_BYTES) return undefined;
  const code = qrcode(0, 'M');
  // The generator takes the low byte of each character: this hands it UTF-8.
  code.addData(String.fromCharCode(...bytes), 'Byte');
  code.make();
  const count = code.getModuleCount();
  const squares: string[] = [];
  for (let row = 0; row < count; row++)
    for (let column = 0; column < count; column++)
      if (code.isDark(row, column)) squares.push(`M${column + QUIET} ${row + QUIET}h1v1h-1z`);
  const size = count + 2 * QUIET;
  return element(
    'svg',
    { class: 'pk qr', viewBox: `0 0 ${size} ${size}`, role: 'img', 'aria-label': label },
    rect('sheet', 0, 0, size, size),
    path('solid', squares.join('')),
  );
}

const QUIET = 4;
