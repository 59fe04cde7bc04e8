import Mocha from 'mocha';

/** Mocha's short report, and after it one line that can be added up with the other suites. */
export default class TotalsReporter extends Mocha.reporters.Dot {
  constructor(runner: Mocha.Runner, options: Mocha.MochaOptions) {
    super(runner, options);
    runner.once('end', () => {
      console.log(`unit: ${runner.stats?.passes ?? 0} passed, ${runner.stats?.failures ?? 0} failed`);
    });
  }
}
