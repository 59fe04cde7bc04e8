import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import type { BrowserContext, Page } from 'playwright-core';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { FromView, ShownDrawing, ToView, ViewState } from '../../client/src/features/bench-view/messages.ts';
import type { Analysis, Host } from '../../server/src/analysis/analysis-types.ts';
import { type Bases, createBases } from '../../server/src/lsp/compared-states.ts';
import { createDocuments } from '../../server/src/lsp/documents.ts';
import { drawing } from '../../server/src/lsp/drawings.ts';
import { serveFences } from '../../server/src/lsp/fence.ts';
import { createFiles, type Files } from '../../server/src/lsp/files.ts';
import type { AnswerOwn } from '../../server/src/lsp/guard.ts';
import { benchPage } from '../../server/src/lsp/page.ts';
import {
  type FenceParams,
  type FenceResult,
  PROTOCOL_VERSION,
  SECTION_NAMES,
  type Section,
  type SectionParams,
  type Subject,
} from '../../server/src/lsp/protocol.ts';
import { sectionOf } from '../../server/src/lsp/sections.ts';
import type { Session } from '../../server/src/lsp/session.ts';
import { sound } from '../../server/src/lsp/sound.ts';
import { ENGLISH, type Language } from '../../server/src/words/languages/language.ts';
import { openTestBrowser } from '../host/browser.ts';
import { plain } from '../support/geotagged.ts';
import { analyser } from '../support/sample-files.ts';

const root = path.resolve(import.meta.dirname, '..', '..');
const SAMPLES = path.join(root, 'samples');

/** Editor colours of the four kinds of theme, as the editor's default themes have them (recalled). */
export const THEMES = {
  'vscode-light': {
    background: '#ffffff',
    foreground: '#3b3b3b',
    link: '#005fb8',
    error: '#e51400',
    border: '#e5e5e5',
    input: '#cecece',
  },
  'vscode-dark': {
    background: '#1f1f1f',
    foreground: '#cccccc',
    link: '#4daafc',
    error: '#f14c4c',
    border: '#2b2b2b',
    input: '#3c3c3c',
  },
  'vscode-high-contrast': {
    background: '#000000',
    foreground: '#ffffff',
    link: '#21a6ff',
    error: '#f48771',
    border: '#6fc3df',
    input: '#6fc3df',
  },
  'vscode-high-contrast-light': {
    background: '#ffffff',
    foreground: '#292929',
    link: '#0f4a85',
    error: '#b5200d',
    border: '#0f4a85',
    input: '#0f4a85',
  },
} as const;
export type Theme = keyof typeof THEMES;

export interface BenchHarness {
  /** A new page of the view, as after a reload of the window where `state` is given. */
  open(options?: PageOptions): Promise<BenchPage>;
  /** A page of the same browser for a document that needs nothing else. */
  empty(): Promise<Page>;
  close(): Promise<void>;
}

interface PageOptions {
  readonly language?: 'en' | 'de';
  readonly theme?: Theme;
  readonly width?: number;
  readonly state?: ViewState;
  /** The page of a finding in place of the view. */
  readonly explanation?: boolean;
}

export interface BenchPage {
  readonly page: Page;
  /** Leaves the page to the next that is opened; where a test has changed more than what is in it, it closes `page` instead. */
  close(): void;
  post(...messages: readonly ToView[]): Promise<void>;
  /** What the view has sent so far. */
  sent(): Promise<readonly FromView[]>;
  state(): Promise<ViewState | undefined>;
}

/** The view in a browser, under the policy that the editor's webview has; the test stands for the extension. */
export async function startHarness(): Promise<BenchHarness> {
  const [script, style, explanation] = await Promise.all(
    ['main.ts', 'bench-view.css', 'explanation/main.ts'].map(bundled),
  );
  const server = await serve({
    '/view.js': script ?? '',
    '/view.css': style ?? '',
    '/explanation.js': explanation ?? '',
    '/photo.png': plain('png'),
  });
  const address = server.address();
  const origin = `http://127.0.0.1:${typeof address === 'object' ? address?.port : 0}`;
  const browser = await openTestBrowser();
  const free: Page[] = [];
  return {
    open: async ({ theme = 'vscode-light', width = 1000, state, explanation = false, language = 'en' } = {}) => {
      const asked = new URLSearchParams({
        script: explanation ? 'explanation' : 'view',
        ...(state && { state: JSON.stringify(state) }),
      });
      const page = free.pop() ?? (await newPage(browser.context));
      return openPage(page, `${origin}/${theme}/${language}?${asked}`, width, () => free.push(page));
    },
    empty: () => browser.context.newPage(),
    close: async () => {
      await browser.close();
      server.close();
    },
  };
}

async function bundled(entry: string): Promise<string> {
  const result = await build({
    entryPoints: [path.join(root, 'client/webview', entry)],
    bundle: true,
    write: false,
    platform: 'browser',
    format: 'iife',
    logLevel: 'silent',
    ...(entry.endsWith('.css') ? { loader: { '.css': 'css' } } : {}),
  });
  return result.outputFiles[0]?.text ?? '';
}

async function serve(files: Readonly<Record<string, string | Buffer>>): Promise<Server> {
  const server = createServer((request, response) => {
    const file = files[request.url ?? ''];
    const type = request.url?.endsWith('.js')
      ? 'text/javascript'
      : request.url?.endsWith('.css')
        ? 'text/css'
        : 'text/html';
    response.setHeader('content-type', request.url?.endsWith('.png') ? 'image/png' : `${type}; charset=utf-8`);
    const { pathname, searchParams } = new URL(request.url ?? '', 'http://bench');
    response.end(file ?? frameOf(pathname.slice(1), searchParams.get('script') ?? 'view'));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return server;
}

/** The theme as the editor tells it to its pages. */
export function themeSheet(theme: Theme): string {
  const colours = THEMES[theme];
  const variables = [
    ['editor-background', colours.background],
    ['editor-foreground', colours.foreground],
    ['textLink-foreground', colours.link],
    ['editorError-foreground', colours.error],
    ['panel-border', colours.border],
    ['input-border', colours.input],
    ['font-family', 'sans-serif'],
    ['font-size', '13px'],
  ];
  return `:root { ${variables.map(([name, value]) => `--vscode-${name}: ${value};`).join(' ')} }`;
}

/** As the extension makes it: the bundle comes with the page. */
function frameOf(page: string, script: string): string {
  const [theme = '', language = 'en'] = page.split('/');
  const policy = "default-src 'none'; script-src 'self'; style-src 'self' 'nonce-theme'; img-src blob: 'self';";
  const sheet = themeSheet(theme in THEMES ? (theme as Theme) : 'vscode-light');
  return `<!doctype html><html lang="${language}"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>Bench</title><style nonce="theme">${sheet}</style><link rel="stylesheet" href="/view.css"></head>
<body class="${theme}" data-words="${language === 'de' ? words() : '{}'}"><main id="page"></main><script src="/${script}.js"></script></body></html>`;
}

const words = (): string =>
  readFileSync(path.join(root, 'client/l10n/bundle.l10n.de.json'), 'utf8')
    .replaceAll('&', '&amp;')
    .replaceAll('"', '&quot;');

/** A page takes twice as long to come as to be loaded anew, so each serves many tests. */
async function newPage(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  await page.addInitScript(`
    const sent = [];
    let state = JSON.parse(new URLSearchParams(location.search).get('state') ?? 'null') ?? undefined;
    Object.assign(globalThis, {
      harness: { sent, state: () => state, contexts: 0, sources: 0 },
      acquireVsCodeApi: () => ({ postMessage: (message) => sent.push(message), getState: () => state, setState: (next) => { state = next; } }),
    });
    const RealContext = globalThis.AudioContext;
    globalThis.AudioContext = class extends RealContext { constructor(...rest) { super(...rest); harness.contexts += 1; } };
    const start = AudioBufferSourceNode.prototype.start;
    AudioBufferSourceNode.prototype.start = function (...rest) { harness.sources += 1; return start.apply(this, rest); };
  `);
  return page;
}

async function openPage(page: Page, address: string, width: number, close: () => void): Promise<BenchPage> {
  await page.setViewportSize({ width, height: 900 });
  await page.goto(address);
  await until(page, 'harness.sent.length > 0');
  return {
    page,
    close,
    post: async (...messages) => {
      // Messages of a window arrive one after the other: when the last one is through, so are ours.
      await page.evaluate(
        `for (const each of ${JSON.stringify(messages)}) window.postMessage(each, '*'); new Promise((done) => setTimeout(done, 0))`,
      );
    },
    sent: () => page.evaluate<readonly FromView[]>('harness.sent'),
    state: () => page.evaluate<ViewState | undefined>('harness.state()'),
  };
}

/** Waits for a condition in the page; the page's policy lets no code be made from text, so it is asked from outside. */
export async function until(page: Page, condition: string): Promise<void> {
  while (!(await page.evaluate<boolean>(condition))) await page.waitForTimeout(20);
}

export interface Shown {
  readonly drawing: ShownDrawing;
  readonly sections: readonly Section[];
}

const benches = new Map<string, Bench>();

/** What the extension would show of a sample, or of a text in its place, made by the server's own functions; the same each time. */
export function bench(sample: string, text?: string): Bench {
  const uri = pathToFileURL(path.join(SAMPLES, `${sample}.pickup`)).href;
  const written = text ?? readFileSync(fileURLToPath(uri), 'utf8');
  const key = `${uri}\n${written}`;
  const known =
    benches.get(key) ??
    new Bench(TextDocument.create(uri, 'pickup', 1, written), analyser.analyse(uri, hostWith(uri, written)));
  benches.set(key, known);
  return known;
}

export class Bench {
  private readonly document: TextDocument;
  private readonly now: Analysis;
  private readonly files: Files;
  private readonly bases: Bases;

  constructor(document: TextDocument, now: Analysis) {
    this.document = document;
    this.now = now;
    const host = hostWith(document.uri, document.getText());
    this.files = createFiles({
      documents: createDocuments(),
      disk: {
        stamp: () => '',
        read: (uri) => host.content(uri) ?? { kind: 'missing' },
        bytes: () => ({ kind: 'missing' }),
        siblings: () => [],
        specsBelow: async () => [],
        namesNear: () => [],
        behindLinks: (uri) => uri,
      },
      askClient: undefined,
      arrived: () => undefined,
    });
    this.files.setFolders([pathToFileURL(SAMPLES).href]);
    this.bases = createBases(this.files);
  }

  async shown(
    subject: Subject,
    {
      before,
      position,
      width = 960,
      t = ENGLISH,
    }: { before?: string; position?: string; width?: number; t?: Language } = {},
  ): Promise<Shown> {
    const { document, now } = this;
    const { uri } = document;
    const pots = { volume: 10, tone: 10 };
    const at = position === undefined ? {} : { position };
    const result = drawing(
      { protocol: PROTOCOL_VERSION, uri, subject, pots, width, ...at },
      { document, analysis: now },
      t,
    );
    const label = t.code === 'de' ? 'letzter Commit' : 'the last commit';
    const base = before === undefined ? undefined : { label, uri, texts: [{ uri, text: before }] };
    const states = { t, document, now, before: base && (await this.bases.before(base, now)) };
    const params: Omit<SectionParams, 'section'> = {
      protocol: PROTOCOL_VERSION,
      uri,
      subject,
      pots,
      width,
      ...at,
    };
    return {
      sections: SECTION_NAMES.flatMap((section) => sectionOf(section, states, params) ?? []),
      drawing: {
        protocol: PROTOCOL_VERSION,
        ...result,
        uri,
        file: uri.split('/').at(-1) ?? '',
        parts: result.parts.map(({ id }) => id),
        knobs: result.positions.find(({ id }) => id === result.position)?.knobs ?? [],
        pots,
        comparedWith: base?.label,
        base: base && { kind: 'revision', revision: 'HEAD' },
      },
    };
  }

  /** The text as it is drawn where it stands in a page of Markdown. */
  async fence(t: Language): Promise<string> {
    const { document, files } = this;
    const asked = { protocol: PROTOCOL_VERSION, uri: document.uri, text: document.getText(), place: 0 };
    const result = await new Promise<FenceResult>((resolve) => {
      const own = (...served: readonly unknown[]): void => {
        const answer = served[3] as (params: FenceParams, token: object) => Promise<FenceResult>;
        void answer(asked, { isCancellationRequested: false }).then(resolve);
      };
      serveFences(own as AnswerOwn, { files } as Session, t);
    });
    return result.html ?? '';
  }

  /** The view as it is saved. */
  saved(subject: Subject): Promise<string> {
    const { document, now } = this;
    const asked = { protocol: PROTOCOL_VERSION, uri: document.uri, subject, pots: { volume: 10, tone: 10 } };
    return benchPage({ t: ENGLISH, document, now, before: undefined }, asked, async () => ({ kind: 'missing' }));
  }

  async sound(subject: Subject, before?: string) {
    const { document, now } = this;
    const { uri } = document;
    const base = before === undefined ? undefined : { label: 'the last commit', uri, texts: [{ uri, text: before }] };
    const states = { t: ENGLISH, document, now, before: base && (await this.bases.before(base, now)) };
    return {
      protocol: PROTOCOL_VERSION,
      ...sound(states, {
        protocol: PROTOCOL_VERSION,
        uri,
        subject,
        pots: { volume: 10, tone: 10 },
        frequencyHz: 110,
      }),
    };
  }
}

function hostWith(uri: string, text: string): Host {
  return {
    content: (asked) => {
      if (asked === uri) return { kind: 'text', text };
      try {
        return { kind: 'text', text: readFileSync(fileURLToPath(asked), 'utf8') };
      } catch {
        return { kind: 'missing' };
      }
    },
    isInside: () => true,
  };
}

/** Sends a drawing and all that follows it. */
export async function showAll(view: BenchPage, { drawing: shown, sections }: Shown, render = 1): Promise<void> {
  const parts = sections.map((content) => ({ type: 'section', render, content }) as const);
  await view.post({ type: 'drawing', render, drawing: shown, part: undefined }, ...parts);
}
