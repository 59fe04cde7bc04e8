/** What a browser makes of the drawings: of all samples, and of specs made up from a seed (SPECS=200: of so many). */
import assert from 'node:assert/strict';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import type { DrawingWidth, PlotWidth } from '../../server/src/documents/drawing-sheet.ts';
import { instrumentPicture } from '../../server/src/documents/instrument-diagram/from-model.ts';
import { instrumentDiagram } from '../../server/src/documents/instrument-diagram/instrument-diagram.ts';
import { positionsPicture, positionsSheet } from '../../server/src/documents/positions-sheet.ts';
import { pickupResponsePicture, positionResponsePicture } from '../../server/src/documents/response-plot/from-model.ts';
import { responsePlot } from '../../server/src/documents/response-plot/response-plot.ts';
import { switchPicture } from '../../server/src/documents/switch-diagram/from-model.ts';
import { switchDiagram } from '../../server/src/documents/switch-diagram/switch-diagram.ts';
import { textWidth } from '../../server/src/documents/text-width.ts';
import { drawingCss } from '../../server/src/documents/theme.ts';
import { pickupPicture } from '../../server/src/documents/wiring-diagram/from-model.ts';
import { drawPickup } from '../../server/src/documents/wiring-diagram/wiring-diagram.ts';
import { generatedSpecs } from '../support/generated-specs.ts';
import { analysedSample, analysedText, sampleFiles } from '../support/sample-files.ts';
import { contrast } from './contrast.ts';
import { type DrawingPage, type Look, openDrawingPage } from './in-browser/drawing-page.ts';
import type { Drawing } from './in-browser/measure.ts';

const SPECS = generatedSpecs(Number(process.env.SPECS ?? 30));
const BATCH = 20;
/** Responses are computed for every so many'th spec only: each takes a good part of a second. */
const RESPONSE_EACH = 5;

describe('drawings in a browser', function () {
  this.timeout(300_000);
  let page: DrawingPage;
  before(async () => {
    page = await openDrawingPage(drawingCss());
  });
  after(() => page.close());

  it('are set in a face that the width table knows', async () => {
    const words = 'Handglove 0123456789 Ω ± kHz, from violet to turquoise: WWW iii';
    for (const { name, size, bold } of [
      { name: '', size: 12, bold: false },
      { name: 'b', size: 12, bold: true },
      { name: 't2', size: 14, bold: true },
      { name: 't1', size: 19, bold: true },
    ]) {
      const width = await page.widthOf(words, name);
      const allowed = textWidth(words, { size, bold });
      assert.ok(
        width <= allowed,
        `the sans-serif face of this machine is wider than the table (${width} > ${allowed} px): install fonts-liberation`,
      );
    }
  });

  it('find faults where there are some: a text off the sheet, one on another, a lead and a joint under one', async () => {
    const svg = (inner: string) =>
      `<svg xmlns="http://www.w3.org/2000/svg" class="pk" width="200" height="60" viewBox="0 0 200 60">${inner}</svg>`;
    const faulty: readonly (readonly [svg: string, fault: RegExp | undefined])[] = [
      [svg('<text x="180" y="30">turquoise</text>'), /leaves the sheet/],
      [svg('<text x="20" y="30">grey</text><text x="40" y="32">pink</text>'), /"grey" lies on "pink"/],
      [svg('<path class="edge" d="M0 26H200"/><text x="20" y="30">grey</text>'), /path edge runs through "grey"/],
      [svg('<circle class="solid" cx="30" cy="26" r="5"/><text x="20" y="30">grey</text>'), /circle solid runs/],
      [svg('<text x="20" y="30">grey'), /is no XML/],
      [svg('<path class="hid" d="M0 26H200"/><text class="knock" x="20" y="30">grey</text>'), undefined],
      [svg('<path class="edge" d="M0 40H200"/><text x="20" y="30">grey</text>'), undefined],
    ];
    const measured = await page.measure(faulty.map(([each]) => ({ name: 'made', svg: each })));
    measured.forEach(({ faults }, index) => {
      const expected = faulty[index]?.[1];
      if (expected === undefined) assert.deepEqual(faults, []);
      else assert.match(faults.join('\n'), expected);
    });
  });

  it('of every sample can be read: no text off the sheet, on another, on a line or on a part', async () => {
    const total = await readable(page, samples());
    assert.ok(total.drawings > 200, `${total.drawings} drawings`);
  });

  for (let from = 0; from < SPECS.length; from += 30) {
    it(`of made-up specs ${from} to ${from + 29} can be read`, async () => {
      const specs = SPECS.slice(from, from + 30);
      const drawings = specs.flatMap(({ name, text }, index) =>
        drawingsOf(name, analysedText(text), index % RESPONSE_EACH === RESPONSE_EACH - 1),
      );
      const total = await readable(page, drawings);
      assert.ok(total.drawings >= 2 * specs.length && total.texts > 20 * total.drawings, JSON.stringify(total));
    });
  }

  /** WCAG 2.2, success criteria 1.4.3 and 1.4.11: text 4.5 to 1, graphics that are needed to understand 3 to 1. */
  const LOOKS: Readonly<Record<string, Look>> = {
    'alone, light': {},
    'alone, dark': { scheme: 'dark' },
    'alone, light with more contrast': { moreContrast: true },
    'alone, dark with more contrast': { scheme: 'dark', moreContrast: true },
    'in the editor, light': { editorClass: 'vscode-light' },
    'in the editor, dark': { editorClass: 'vscode-dark' },
    'in the editor, high contrast': { editorClass: 'vscode-high-contrast' },
    'in the editor, high contrast light': { editorClass: 'vscode-high-contrast-light' },
  };
  for (const [name, look] of Object.entries(LOOKS)) {
    it(`have the contrast that WCAG asks for: ${name}`, async () => {
      const seen = await page.paints(someOfEach(), look);
      assert.ok(new Set(seen.map(({ what }) => what)).size > 12, 'texts and lines of many kinds');
      const poor = seen.flatMap(({ what, colour, grounds, least }) =>
        grounds.flatMap((ground) => {
          const ratio = contrast(hex(colour), hex(ground));
          return ratio >= least ? [] : [`${what}: ${colour} on ${ground} ${ratio.toFixed(2)}`];
        }),
      );
      assert.deepEqual([...new Set(poor)], []);
    });
  }

  it('are taken by the page without an error', () => assert.deepEqual(page.errors, []));
});

async function readable(page: DrawingPage, drawings: readonly Drawing[]) {
  const total = { drawings: 0, texts: 0 };
  const faults: string[] = [];
  for (let from = 0; from < drawings.length; from += BATCH) {
    for (const measured of await page.measure(drawings.slice(from, from + BATCH))) {
      total.drawings += 1;
      total.texts += measured.texts;
      faults.push(...measured.faults);
    }
  }
  assert.deepEqual(faults, []);
  return total;
}

const samples = (): readonly Drawing[] =>
  sampleFiles().flatMap(({ path }) => drawingsOf(path, analysedSample(path), !path.startsWith('mistakes/')));

/** Drawings in which every kind of mark stands: a mistake with its rings, a stack, a tap, plots, a selector. */
const someOfEach = (): readonly Drawing[] =>
  ['mistakes/phase-coils-cancel.pickup', 'cinder-bridge.pickup', 'quorl.pickup', 'pennywither.pickup'].flatMap((name) =>
    drawingsOf(name, analysedSample(name), true),
  );

function drawingsOf(name: string, analysis: Analysis, withResponse: boolean): readonly Drawing[] {
  const pickups = analysis.pickups.flatMap((pickup) => {
    const picture = pickupPicture(analysis, pickup);
    const response = withResponse ? pickupResponsePicture({ analysis, pickup }) : undefined;
    return [
      ...inAllSizes(`${name}: wiring of ${pickup.pickup.name}`, (size) => drawPickup(picture, size).svg),
      ...(response === undefined
        ? []
        : plotted(`${name}: response of ${pickup.pickup.name}`, (size) => responsePlot(response, size))),
    ];
  });
  const instruments = analysis.instruments.flatMap((instrument) => {
    const live = instrument.instrument.positions[1]?.key.value;
    const ofOne = instrumentPicture(analysis, instrument, { live });
    const ofAll = instrumentPicture(analysis, instrument);
    const sheet = positionsPicture(analysis, instrument, { live });
    const lugs = switchPicture(analysis, instrument, live);
    const response =
      withResponse && live !== undefined ? positionResponsePicture({ analysis, instrument }, live) : undefined;
    return [
      ...inAllSizes(`${name}: schematic`, (size) => instrumentDiagram(ofOne, size)),
      ...inAllSizes(`${name}: schematic of all positions`, (size) => instrumentDiagram(ofAll, size)),
      ...(sheet === undefined ? [] : plotted(`${name}: positions`, (size) => positionsSheet(sheet, size))),
      ...(lugs === undefined ? [] : inAllSizes(`${name}: switches`, (size) => switchDiagram(lugs, size))),
      ...(response === undefined
        ? []
        : plotted(`${name}: response at ${live}`, (size) => responsePlot(response, size))),
    ];
  });
  return [...pickups, ...instruments];
}

const inAllSizes = (name: string, draw: (size: DrawingWidth) => string): readonly Drawing[] =>
  (['wide', 'narrow', 'tight'] as const).map((size) => ({ name: `${name}, ${size}`, svg: draw(size) }));

const plotted = (name: string, draw: (size: PlotWidth) => string): readonly Drawing[] =>
  (['wide', 'narrow', 'slim'] as const).map((size) => ({ name: `${name}, ${size}`, svg: draw(size) }));

/** A computed colour as six digits: `rgb(1, 2, 3)`, or `color(srgb 0.1 0.2 0.3)` where tones are mixed. */
function hex(colour: string): string {
  const numbers = colour.match(/[\d.]+/g)?.map(Number) ?? [];
  const share = colour.startsWith('color(') ? 255 : 1;
  assert.equal(numbers.length, 3, colour);
  return `#${numbers
    .map((each) =>
      Math.round(each * share)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
}
