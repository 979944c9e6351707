import { defineConfig } from 'vitest/config'
import { ClosingLineReporter } from './build/test-reporter.ts'

const pure = ['tests/domain/**/*.test.ts', 'tests/properties/**/*.test.ts']

/** Browser tests drive a real Chromium from Node, one file after the other; everything else runs side by side. */
export default defineConfig({
  test: {
    environment: 'node',
    setupFiles: ['tests/support/seeded-properties.ts'],
    reporters: [new ClosingLineReporter()],
    // Both cores of a small machine; the usual would leave one idle.
    maxWorkers: 2,
    testTimeout: 20_000,
    hookTimeout: 60_000,
    // What is waited for comes when it comes: a busy machine is no failure.
    expect: { poll: { timeout: 15_000 } },
    projects: [
      {
        extends: true,
        // Pure functions leave nothing behind: their files share what they have loaded, in a quarter of the time.
        test: { name: 'domain', include: pure, isolate: false },
      },
      {
        extends: true,
        test: { name: 'node', include: ['tests/**/*.test.ts'], exclude: ['tests/browser/**', ...pure] },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          fileParallelism: false,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
})
