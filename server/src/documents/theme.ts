/**
 * Colours of every drawing. Paper, ink, links and findings are the editor's own; what stands here are the values for viewers
 * without an editor, measured for contrast, and the mixing of the quieter tones under a user's theme.
 */

export const TOKENS = ['paper', 'body', 'ink', 'ink2', 'line', 'live', 'find', 'faint'] as const;
export type Token = (typeof TOKENS)[number];
export type Palette = Readonly<Record<Token, string>>;

/** `body` tints coils; `ink2` is small text; `line` is graphics; `faint` never carries meaning. */
export const PALETTES = {
  light: {
    paper: '#ffffff',
    body: '#f1eee8',
    ink: '#1f2328',
    ink2: '#5a6068',
    line: '#6e757d',
    live: '#0a5aa8',
    find: '#b3261e',
    faint: '#d5d9dd',
  },
  dark: {
    paper: '#1f1f1f',
    body: '#2c2a27',
    ink: '#d4d4d4',
    ink2: '#a6abb0',
    line: '#8b9197',
    live: '#6cb6ff',
    find: '#ff8a80',
    faint: '#414549',
  },
  'hc dark': {
    paper: '#000000',
    body: '#000000',
    ink: '#ffffff',
    ink2: '#e6e6e6',
    line: '#c0c0c0',
    live: '#6fc3df',
    find: '#ff9d94',
    faint: '#707070',
  },
  'hc light': {
    paper: '#ffffff',
    body: '#ffffff',
    ink: '#000000',
    ink2: '#292929',
    line: '#4d4d4d',
    live: '#0f4a85',
    find: '#9c1006',
    faint: '#8a8a8a',
  },
} as const satisfies Readonly<Record<string, Palette>>;
export type ThemeName = keyof typeof PALETTES;

const EDITOR_VARIABLE: Partial<Record<Token, string>> = {
  paper: '--vscode-editor-background',
  ink: '--vscode-editor-foreground',
  live: '--vscode-textLink-foreground',
  find: '--vscode-editorError-foreground',
};

/** How much ink the quieter tones keep under a user's theme; with an ink of 7:1 this leaves text 4.5 and graphics 3 on paper. */
export const INK_SHARE = { ink2: 0.87, line: 0.7, faint: 0.2, body: 0.07 } as const;

/** Wires by their IEC 60757 letters. The edges of a lead, not its colour, give the contrast. */
export const LEAD_COLOURS = {
  BK: '#17191b',
  BN: '#7d4a22',
  RD: '#cf3030',
  OG: '#f28c28',
  YE: '#f6d21f',
  GN: '#2f8f46',
  BU: '#2f6fc4',
  VT: '#8557c2',
  GY: '#939a9f',
  WH: '#ffffff',
  PK: '#f29bbb',
  GD: '#b08d2e',
  TQ: '#35b8ae',
  SR: '#c3c8cc',
} as const;

/** The one style sheet of a drawing. Standing alone it follows the reader's settings, inside the editor the editor's theme. */
export function drawingCss(): string {
  return [
    `.pk { ${variables(PALETTES.light)} }`,
    media('(prefers-color-scheme: dark)', PALETTES.dark),
    media('(prefers-contrast: more)', PALETTES['hc light']),
    media('(prefers-contrast: more) and (prefers-color-scheme: dark)', PALETTES['hc dark']),
    `.vscode-light .pk { ${variables(PALETTES.light)} ${mixedTones()} }`,
    `.vscode-dark .pk { ${variables(PALETTES.dark)} ${mixedTones()} }`,
    `.vscode-high-contrast .pk { ${variables(PALETTES['hc dark'])} }`,
    `.vscode-high-contrast-light .pk { ${variables(PALETTES['hc light'])} }`,
    `@media print { .pk, .pk.pk { ${printVariables()} } }`,
    ...RULES,
    ...Object.entries(LEAD_COLOURS).map(([code, colour]) => `.pk .${code} { stroke: ${colour}; }`),
    '',
  ].join('\n');
}

function variables(palette: Palette): string {
  return TOKENS.map((token) => {
    const editor = EDITOR_VARIABLE[token];
    return `--${token}: ${editor === undefined ? palette[token] : `var(${editor}, ${palette[token]})`};`;
  }).join(' ');
}

function printVariables(): string {
  return TOKENS.map((token) => `--${token}: ${token === 'body' ? '#ffffff' : PALETTES.light[token]};`).join(' ');
}

function mixedTones(): string {
  const tones = Object.entries(INK_SHARE);
  return tones
    .map(([token, share]) => `--${token}: color-mix(in srgb, var(--ink) ${share * 100}%, var(--paper));`)
    .join(' ');
}

function media(condition: string, palette: Palette): string {
  return `@media screen and ${condition} { .pk { ${variables(palette)} } }`;
}

/** Viewers that know no variables read the plain colour before each of them, and so show the light palette. */
export function colour(property: 'fill' | 'stroke', token: Token): string {
  return `${property}: ${PALETTES.light[token]}; ${property}: var(--${token});`;
}

export const fill = (token: Token) => colour('fill', token);
export const stroke = (token: Token) => `fill: none; ${colour('stroke', token)}`;

const RULES: readonly string[] = [
  `.pk text { font-family: "Segoe UI", "Helvetica Neue", "Liberation Sans", Arial, sans-serif; font-family: var(--vscode-font-family, "Segoe UI", "Helvetica Neue", "Liberation Sans", Arial, sans-serif); font-size: 12px; ${fill('ink')} font-variant-numeric: tabular-nums; unicode-bidi: isolate; }`,
  '.pk .t1 { font-size: 19px; font-weight: 600; }',
  '.pk .t2 { font-size: 14px; font-weight: 600; }',
  `.pk .q { ${fill('ink2')} }`,
  '.pk .e { text-anchor: end; }',
  '.pk .m { text-anchor: middle; }',
  '.pk .b { font-weight: 600; }',
  `.pk .sheet { ${fill('paper')} }`,
  `.pk .knock { ${colour('stroke', 'paper')} stroke-width: 4; stroke-linejoin: round; paint-order: stroke; }`,
  `.pk .w1 { ${stroke('line')} stroke-width: 1; }`,
  `.pk .w2 { ${stroke('ink')} stroke-width: 1.5; }`,
  `.pk .w3 { ${stroke('ink')} stroke-width: 2.5; }`,
  `.pk .hid { ${stroke('line')} stroke-width: 1; stroke-dasharray: 7 3; }`,
  `.pk .foil { ${stroke('ink')} stroke-width: 1; stroke-dasharray: 12 3 2 3; }`,
  `.pk .hair { ${stroke('faint')} stroke-width: 1; }`,
  `.pk .body { ${fill('body')} ${colour('stroke', 'line')} stroke-width: 1; }`,
  `.pk .tint { fill: none; ${colour('stroke', 'body')} stroke-width: 3; }`,
  `.pk .solid { ${fill('ink')} }`,
  `.pk .open { ${fill('paper')} ${colour('stroke', 'ink')} stroke-width: 1.5; }`,
  `.pk .flow { ${fill('ink')} ${colour('stroke', 'paper')} stroke-width: 1.5; paint-order: stroke; }`,
  `.pk .halo { ${stroke('paper')} stroke-width: 10; }`,
  `.pk .edge { ${stroke('ink')} stroke-width: 6.5; }`,
  '.pk .core { fill: none; stroke-width: 4; }',
  '.pk .second { stroke-dasharray: 8 8; }',
  `.pk .seam { ${stroke('ink')} stroke-width: 4; stroke-dasharray: 1 7; }`,
  `.pk .bare { ${colour('stroke', 'paper')} }`,
  `.pk .lay { ${stroke('ink')} stroke-width: 1; stroke-dasharray: 1.5 4.5; }`,
  `.pk .ring { ${stroke('find')} stroke-width: 2.5; }`,
  `.pk .fix { ${stroke('find')} stroke-width: 2; stroke-dasharray: 5 4; }`,
  `.pk .leader { ${stroke('find')} stroke-width: 1; }`,
  `.pk .tag { ${fill('find')} }`,
  `.pk .tagn { ${fill('paper')} font-weight: 600; text-anchor: middle; }`,
];
