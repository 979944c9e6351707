import type { SerializedError } from 'vitest'
import { DefaultReporter, type TestCase, type TestModule, type TestRunEndReason } from 'vitest/node'
import { findBrowser } from '../electron/browser.ts'

const noBrowser = `
################################################################################
#  THE BROWSER TESTS WERE NOT RUN: no Chromium-family browser was found.       #
#  Install one (on Debian: apt-get install chromium) and run the tests again.  #
################################################################################
`

/** The usual report, then on a line alone what passed, failed and was skipped; tests without a browser are called out. */
export class ClosingLineReporter extends DefaultReporter {
  override onTestRunEnd(
    modules: readonly TestModule[],
    errors: readonly SerializedError[],
    reason: TestRunEndReason,
  ): void {
    super.onTestRunEnd(modules, errors, reason)
    if (!findBrowser()) console.log(noBrowser)
    console.log(closingLine(modules, errors))
  }
}

/** A file that could not be read and an error outside every test count as one failure each. */
function closingLine(modules: readonly TestModule[], errors: readonly SerializedError[]): string {
  const tests = modules.flatMap((module) => [...module.children.allTests()])
  const count = (state: ReturnType<TestCase['result']>['state']) =>
    tests.filter((test) => test.result().state === state).length
  const suites = modules.flatMap((module) => [module, ...module.children.allSuites()])
  const broken = suites.filter((suite) => suite.errors().length > 0).length
  const skipped = count('skipped')
  const failed = count('failed') + count('pending') + broken + errors.length
  return `${count('passed')} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`
}
