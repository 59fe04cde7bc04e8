const path = require('node:path');
const TotalsReporter = require('./totals-reporter.cjs');

const SHOWN = 25;

/** The short report, and after it the files that took longest: `npm run unit -- --reporter ./test/host/time-reporter.cjs`. */
module.exports = class TimeReporter extends TotalsReporter {
  /**
   * @param {import('mocha').Runner} runner
   * @param {import('mocha').MochaOptions} options
   */
  constructor(runner, options) {
    super(runner, options);
    /** @type {Map<string, { milliseconds: number, tests: number }>} */
    const files = new Map();
    runner.on('test end', ({ file = '?', duration = 0 }) => {
      const { milliseconds, tests } = files.get(file) ?? { milliseconds: 0, tests: 0 };
      files.set(file, { milliseconds: milliseconds + duration, tests: tests + 1 });
    });
    runner.once('end', () => {
      const slowest = [...files].sort(([, a], [, b]) => b.milliseconds - a.milliseconds).slice(0, SHOWN);
      for (const [file, { milliseconds, tests }] of slowest) {
        const seconds = (milliseconds / 1000).toFixed(1).padStart(6);
        console.log(`${seconds} s ${String(tests).padStart(5)} tests  ${path.relative('', file)}`);
      }
    });
  }
};
