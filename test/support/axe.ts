import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { build } from 'esbuild';
import type { Page } from 'playwright-core';

interface Node {
  readonly html: string;
  readonly target: readonly unknown[];
}

interface Rule {
  readonly id: string;
  readonly nodes: readonly Node[];
}

interface Results {
  readonly violations: readonly Rule[];
  readonly incomplete: readonly Rule[];
}

const SOURCE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** WCAG 2.2, 1.4.3. Large text would need less; it is held to the same here. */
const LEAST_CONTRAST = 4.5;

/**
 * What is wrong with the access to a page by axe-core, every rule that it has on by default, and what it leaves undecided, decided: contrast by the
 * colours that are painted, and a name beside a sign without letters, which is no text label (WCAG 2.2, 2.5.3). One line each.
 */
export async function accessFaults(page: Page): Promise<readonly string[]> {
  // What passes is not told, so it need not be put into words either.
  const ask = `axeCore.run({ resultTypes: ['violations', 'incomplete'] })`;
  // As one text: the page's policy lets no further script file in. A window that has shown a page before has it already.
  const { violations, incomplete } = await page.evaluate<Results>(
    (await page.evaluate<boolean>(`'axeCore' in globalThis`))
      ? ask
      : `(() => { const module = { exports: {} }; ${SOURCE}; globalThis.axeCore = module.exports; return ${ask}; })()`,
  );
  const undecided = await Promise.all(incomplete.map((rule) => decided(page, rule)));
  return [...violations.flatMap((rule) => rule.nodes.map((node) => told(rule, node))), ...undecided.flat()];
}

async function decided(page: Page, rule: Rule): Promise<readonly string[]> {
  if (rule.id === 'label-content-name-mismatch')
    return rule.nodes.filter(({ html }) => /\p{L}/u.test(withoutTags(html))).map((node) => told(rule, node));
  if (rule.id !== 'color-contrast') return rule.nodes.map((node) => `undecided ${told(rule, node)}`);
  const targets = rule.nodes.map(({ target }) => String(target[0]));
  measuring ??= measuringScript();
  const script = await measuring;
  const ratios = await page.evaluate<readonly number[]>(
    `(() => { ${script}; return measuring.measuredContrasts(${JSON.stringify(targets)}); })()`,
  );
  return rule.nodes.flatMap((node, index) => {
    const ratio = ratios[index] ?? 0;
    return ratio >= LEAST_CONTRAST ? [] : [`${told(rule, node)}: measured ${ratio.toFixed(2)}`];
  });
}

let measuring: Promise<string> | undefined;

async function measuringScript(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [path.join(import.meta.dirname, 'painted-contrast.ts')],
    bundle: true,
    write: false,
    platform: 'browser',
    format: 'iife',
    globalName: 'measuring',
    logLevel: 'silent',
  });
  return outputFiles[0]?.text ?? '';
}

const told = ({ id }: Rule, { html }: Node): string => `${id}: ${html.slice(0, 160)}`;

const withoutTags = (html: string): string => html.replace(/<[^>]*>/g, '');
