/** The one sheet of the cards: black on white, light tokens in every drawing, boxes that a pencil fits into. */
import { drawingCss, PALETTES, TOKENS } from '../theme.ts';

export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];

/** Both leave 186 x 257 mm, so a card breaks nowhere on one paper that it does not break on the other. */
const PAGES: Readonly<Record<Paper, string>> = {
  a4: 'size: A4; margin: 20mm 12mm;',
  letter: 'size: letter; margin: 11.2mm 14.95mm;',
};

/** 257 x 190 mm lying. */
const SIDEWAYS: Readonly<Record<Paper, string>> = {
  a4: 'size: A4 landscape; margin: 10mm 20mm;',
  letter: 'size: letter landscape; margin: 12.9mm 11.2mm;',
};

export function cardCss(paper: Paper): string {
  return [
    `@page { ${PAGES[paper]} }`,
    `@page sideways { ${SIDEWAYS[paper]} }`,
    drawingCss(),
    lightTokens(),
    ...RULES,
    '',
  ].join('\n');
}

/** A card is paper, whatever the reader's screen is set to. */
function lightTokens(): string {
  const tokens = TOKENS.map((token) => `--${token}: ${printed(token)};`).join(' ');
  return `.card .pk.pk.pk { ${tokens} }`;
}

function printed(token: (typeof TOKENS)[number]): string {
  if (token === 'body') return '#ffffff';
  return token === 'ink' ? '#000000' : PALETTES.light[token];
}

const RULES: readonly string[] = [
  '* { box-sizing: border-box; }',
  'html { background: #fff; color: #000; }',
  'body { margin: 0; background: #fff; }',
  '.card { display: block; width: 186mm; margin: 0 auto; padding: 6mm 0; font: 9.5pt/1.26 "Segoe UI", "Helvetica Neue", "Liberation Sans", Arial, sans-serif; font-variant-numeric: tabular-nums; overflow-wrap: anywhere; color: #000; }',
  'h1 { font-size: 17pt; line-height: 1.1; margin: 0; font-weight: 600; }',
  'h1.long { font-size: 11pt; line-height: 1.2; }',
  'h2, caption { font-size: 11pt; line-height: 1.3; margin: 2mm 0 .8mm; font-weight: 600; text-align: left; break-after: avoid; }',
  'caption { margin: 0; padding: 2mm 0 .8mm; }',
  'p { margin: 0 0 1mm; }',
  '.q { color: #333; }',
  'header { display: grid; grid-template-columns: 1fr auto; gap: 0 6mm; align-items: end; border-bottom: 1.2pt solid #000; padding-bottom: 1.4mm; }',
  'header div:last-child { text-align: right; max-width: 60mm; }',
  '.warn { border: 1.2pt solid #000; padding: 1.2mm 2mm; margin: 2mm 0 0; }',
  'dl { margin: 2mm 0 0; display: grid; grid-template-columns: repeat(4, 1fr); gap: 0 4mm; }',
  'dl.f3 { grid-template-columns: repeat(3, 1fr); }',
  'dl.f2 { grid-template-columns: repeat(2, 1fr); }',
  'dl.f1 { grid-template-columns: 1fr; }',
  'dl + dl { margin-top: 0; }',
  'dl div { border-bottom: .5pt solid #000; min-height: 8.4mm; padding: .5mm 0; break-inside: avoid; }',
  'dl.key div { min-height: 14mm; }',
  'dl.tall div { min-height: 15mm; }',
  'dt { font-size: 8pt; line-height: 1.2; color: #333; }',
  'dd { margin: 0; min-height: 4.6mm; }',
  '.big { font-size: 18pt; font-weight: 600; line-height: 1.2; }',
  'table { border-collapse: collapse; width: 100%; }',
  'th { text-align: left; font-weight: 600; font-size: 8.5pt; vertical-align: bottom; padding: 0 1.6mm .6mm 0; border-bottom: .9pt solid #000; }',
  'td { padding: .25mm 1.6mm .25mm 0; border-bottom: .4pt solid #777; height: 5.1mm; line-height: 1.2; vertical-align: middle; }',
  'tbody th { border-bottom: .4pt solid #777; font-size: 9.5pt; font-weight: 400; vertical-align: middle; padding: .3mm 1.6mm .3mm 0; }',
  'tr { break-inside: avoid; }',
  'thead { display: table-header-group; }',
  '.n { text-align: right; padding-right: 2.5mm; white-space: nowrap; }',
  '.s { white-space: nowrap; }',
  '.x { font-weight: 700; font-size: 10.5pt; line-height: 1.1; }',
  'th.box, td.box { width: 20.6mm; }',
  'td.box::before { content: ""; display: block; width: 19mm; height: 4.6mm; border: .9pt solid #000; }',
  'th.tick, td.tick { width: 8mm; text-align: center; padding-right: 0; }',
  'th.tick { white-space: nowrap; }',
  'td.tick::before { content: ""; display: block; width: 4.6mm; height: 4.6mm; border: .9pt solid #000; margin: 0 auto; }',
  'td.gap { width: 3mm; border: 0; padding: 0; }',
  '.blank td { height: 7mm; }',
  '.half { width: 128mm; }',
  '.steps { display: grid; grid-template-columns: 116mm 1fr; gap: 0 6mm; }',
  '.beside { display: grid; grid-template-columns: 118mm 1fr; gap: 0 5mm; align-items: start; }',
  '.steps > *, .beside > * { min-width: 0; }',
  '.two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 7mm; }',
  '.two > * { min-width: 0; }',
  '.two.bench { grid-template-columns: 82mm 1fr; gap: 0 6mm; }',
  'section { break-inside: avoid; }',
  'section.long { break-inside: auto; }',
  '.end { break-inside: avoid; }',
  'ul { margin: 0; padding-left: 4mm; }',
  'li { margin: 0 0 .4mm; break-inside: avoid; }',
  '.wide ul { columns: 2; column-gap: 7mm; }',
  'ul.ticks { list-style: none; padding-left: 0; } ul.ticks .tickbox { margin-left: 0; }',
  '.tickbox { display: inline-block; width: 4.6mm; height: 4.6mm; border: .9pt solid #000; vertical-align: -.9mm; margin: 0 1.5mm 0 4mm; }',
  '.line { display: inline-block; border-bottom: .6pt solid #000; min-width: 30mm; height: 4.6mm; vertical-align: bottom; }',
  '.result { margin-top: 2mm; }',
  '.pairs td, .pairs tbody th { padding-right: 1.2mm; }',
  '.pairs .n { padding-right: 2mm; }',
  '.lead { display: inline-block; margin-right: 3mm; }',
  '.stack .lead { display: block; margin: 0; }',
  '.sw { display: inline-block; width: 6.4mm; height: 2.3mm; margin-right: 1.2mm; vertical-align: -.2mm; }',
  '.drawing { margin: 2mm 0 0; break-inside: avoid; }',
  '.beside .drawing svg { max-height: 190mm; }',
  '.drawing svg { display: block; max-width: 100%; height: auto; margin: 0 auto; }',
  '.photos { display: grid; grid-template-columns: 1fr 1fr; gap: 4mm 7mm; align-items: start; }',
  'figure { margin: 0; break-inside: avoid; }',
  'figure img { display: block; max-width: 100%; max-height: 90mm; width: auto; height: auto; }',
  'figcaption { padding-top: .8mm; }',
  '.labels { display: grid; grid-template-columns: 89mm 89mm; gap: 6mm; margin-top: 6mm; }',
  '.label { border: .6pt dashed #000; padding: 3mm; font-size: 9pt; min-height: 54mm; break-inside: avoid; }',
  '.label h2 { margin: 0 0 .6mm; }',
  '.label svg.qr { float: right; width: 27mm; height: 27mm; margin: 0 0 1mm 2mm; }',
  '.label p { margin: 0 0 .5mm; }',
  'footer { border-top: .6pt solid #000; margin-top: 2.4mm; padding-top: 1.2mm; font-size: 8pt; line-height: 1.2; color: #222; display: grid; grid-template-columns: 1fr auto; gap: 6mm; break-inside: avoid; break-before: avoid; }',
  'footer span:last-child { max-width: 70mm; text-align: right; }',
  '@media print { .card { padding: 0; width: auto; } .sideways { page: sideways; break-before: page; } .sideways .drawing { margin: 0; } .sideways svg { width: 225.9mm; max-width: none; } }',
];
