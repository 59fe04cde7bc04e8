/**
 * What the samples lead to, kept as files so that a change of any number, word or line of a drawing is seen and explained in its
 * commit. `UPDATE_BASELINES=1 npx mocha` writes them anew.
 */
import assert from 'node:assert/strict';
import { readdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import type { Analysis, PickupAnalysis } from '../server/src/analysis/analysis-types.ts';
import { locateFindings } from '../server/src/cli/located-finding.ts';
import { reportData } from '../server/src/cli/report-data.ts';
import { pickupPicture } from '../server/src/documents/wiring-diagram/from-model.ts';
import { drawPickup } from '../server/src/documents/wiring-diagram/wiring-diagram.ts';
import { analysedSample, SAMPLES, sampleFiles } from './support/sample-files.ts';
import { assertStored, isUpdate } from './support/stored.ts';

const BASELINES = path.resolve(import.meta.dirname, 'baselines');

const specs = sampleFiles().flatMap(({ path: name }) => (name.startsWith('parts/') ? [] : [name]));

/** Ten units in the last of six digits lie far below any uncertainty and far above what processors round differently. */
const json = (value: unknown): string =>
  `${JSON.stringify(value, (_key, each) => (typeof each === 'number' ? Number(each.toPrecision(6)) : each), 2)}\n`;

const findings = (analysis: Analysis): string =>
  json(
    locateFindings(analysis, SAMPLES, false).map(({ code, severity, message, at, related, fixes }) => ({
      code,
      severity,
      message,
      line: at.range.start.line + 1,
      related: related.map((each) => `${each.at.path}:${each.at.range.start.line + 1}: ${each.message}`),
      fixes: fixes.map(({ title, edits }) => ({
        title,
        edits: edits.map((edit) => `${edit.at.range.start.line + 1}: ${edit.newText}`),
      })),
    })),
  );

const netlists = (analysis: Analysis): string =>
  json(
    Object.fromEntries(
      analysis.pickups.map(({ pickup, netlist: { nets, hot, ground, chassis, free } }) => [
        pickup.name,
        { nets: nets.map(({ nodes }) => [...nodes].sort()), hot, ground, chassis, free: [...free] },
      ]),
    ),
  );

/** Without the responses: hundreds of points that the resonance, the peak and the -3 dB point stand for. */
const estimates = (analysis: Analysis): string =>
  json(
    reportData(
      analysis.pickups,
      analysis.instruments.map((each) => [
        each,
        each.positions().map((position) => ({ ...position, response: undefined })),
      ]),
      { magnets: analysis.namesInScope('magnet') },
    ),
  );

const wiring = (analysis: Analysis, pickup: PickupAnalysis): string =>
  drawPickup(pickupPicture(analysis, pickup), 'wide').svg;

describe('baselines', () => {
  const known = new Set<string>();
  if (isUpdate) rmSync(BASELINES, { recursive: true, force: true });

  for (const spec of specs) {
    describe(spec, () => {
      const folder = spec.replace(/\.pickup$/, '');
      const analysis = (): Analysis => analysedSample(spec);
      const baseline = (name: string, actual: (analysis: Analysis) => string): void => {
        const file = path.posix.join(folder, name);
        known.add(file);
        it(name, () => assertStored(path.join(BASELINES, file), actual(analysis())));
      };
      baseline('findings.json', findings);
      baseline('netlist.json', netlists);
      // Of a mistake the findings are what matters.
      if (folder.startsWith('mistakes/')) return;
      baseline('estimates.json', estimates);
      for (const pickup of analysis().pickups) {
        baseline(`wiring-${pickup.pickup.name}.svg`, (each) =>
          wiring(each, each.pickups.find((one) => one.pickup.name === pickup.pickup.name) ?? pickup),
        );
      }
    });
  }

  // A suite of its own, since a suite's tests run before the suites in it.
  describe('all of them', () => {
    it('belong to a sample each', () => {
      const files = readdirSync(BASELINES, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => path.relative(BASELINES, path.join(entry.parentPath, entry.name)).split(path.sep).join('/'));
      assert.deepEqual(
        files.filter((file) => !known.has(file)),
        [],
      );
    });
  });
});
