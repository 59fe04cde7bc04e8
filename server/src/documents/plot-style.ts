/** Lines and areas that plots and schematics need beside those of every drawing. */
import { colour, fill, stroke, type Token } from './theme.ts';

const line = (token: Token, width: number): string => `${stroke(token)} stroke-width: ${width};`;

const RULES: readonly string[] = [
  `.pk .now { ${line('ink', 2.5)} stroke-linejoin: round; }`,
  `.pk .spark { ${line('ink', 1.5)} stroke-linejoin: round; }`,
  `.pk .was { ${line('line', 2)} stroke-dasharray: 9 4; stroke-linejoin: round; }`,
  `.pk .limit { ${line('line', 1)} stroke-dasharray: 1.5 3; }`,
  `.pk .band { ${fill('ink')} fill-opacity: 0.14; }`,
  `.pk .pt { ${line('live', 1)} }`,
  `.pk .res { ${fill('live')} fill-opacity: 0.16; }`,
  `.pk .bar { ${fill('line')} }`,
  `.pk .barn { ${line('paper', 1.5)} }`,
  `.pk .row { ${fill('body')} }`,
  `.pk .on { ${line('ink', 3)} stroke-linejoin: round; stroke-linecap: round; }`,
  `.pk .off { ${line('line', 1)} }`,
  `.pk .cell { ${fill('paper')} ${colour('stroke', 'line')} stroke-width: 1; }`,
  `.pk .celln { ${fill('line')} ${colour('stroke', 'line')} stroke-width: 1; }`,
  `.pk .cellon { ${fill('ink')} ${colour('stroke', 'ink')} stroke-width: 1; }`,
  // In high contrast the tint of a row is the paper: an edge keeps the row apart.
  `.pk .gap { ${line('paper', 7)} }`,
];

export const plotCss = (): string => `${RULES.join('\n')}\n`;
