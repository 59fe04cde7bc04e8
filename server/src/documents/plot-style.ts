/** Lines and areas that plots and schematics need beside those of every drawing. */
import { PALETTES, type Token } from './theme.ts';

/** Viewers that know no variables read the plain colour first, and so show the light palette. */
const paint = (property: 'fill' | 'stroke', token: Token): string =>
  `${property}: ${PALETTES.light[token]}; ${property}: var(--${token});`;

const line = (token: Token, width: number): string => `fill: none; ${paint('stroke', token)} stroke-width: ${width};`;

const RULES: readonly string[] = [
  `.pk .now { ${line('ink', 2.5)} stroke-linejoin: round; }`,
  `.pk .spark { ${line('ink', 1.5)} stroke-linejoin: round; }`,
  `.pk .was { ${line('line', 2)} stroke-dasharray: 9 4; stroke-linejoin: round; }`,
  `.pk .limit { ${line('line', 1)} stroke-dasharray: 1.5 3; }`,
  `.pk .band { ${paint('fill', 'ink')} fill-opacity: 0.14; }`,
  `.pk .bar { ${paint('fill', 'line')} }`,
  `.pk .barn { ${line('paper', 1.5)} }`,
  `.pk .row { ${paint('fill', 'body')} }`,
  `.pk .on { ${line('ink', 3)} stroke-linejoin: round; stroke-linecap: round; }`,
  `.pk .off { ${line('line', 1)} }`,
  `.pk .cell { ${paint('fill', 'paper')} ${paint('stroke', 'line')} stroke-width: 1; }`,
  `.pk .celln { ${paint('fill', 'line')} ${paint('stroke', 'line')} stroke-width: 1; }`,
  `.pk .cellon { ${paint('fill', 'ink')} ${paint('stroke', 'ink')} stroke-width: 1; }`,
  // In high contrast the tint of a row is the paper: an edge keeps the row apart.
  `.pk .gap { ${line('paper', 7)} }`,
];

export const plotCss = (): string => `${RULES.join('\n')}\n`;
