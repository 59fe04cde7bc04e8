const Mocha = require('mocha');

/**
 * Mocha's short report, and after it one line that can be added up with the other suites. Plain CommonJS, because mocha takes a
 * reporter before, and by another way than, the tests.
 */
module.exports = class TotalsReporter extends Mocha.reporters.Dot {
  /**
   * @param {import('mocha').Runner} runner
   * @param {import('mocha').MochaOptions} options
   */
  constructor(runner, options) {
    super(runner, options);
    runner.once('end', () => {
      console.log(`unit: ${runner.stats?.passes ?? 0} passed, ${runner.stats?.failures ?? 0} failed`);
    });
  }
};
