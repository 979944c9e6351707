import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { ClosingLineReporter } from './build/test-reporter.ts'

const pure = ['tests/domain/**/*.test.ts', 'tests/properties/**/*.test.ts']
const seeded = 'tests/support/seeded-properties.ts'

/**
 * Browser tests drive a real Chromium from Node. Files share what they have loaded, in a quarter of the time: nothing of
 * the program keeps in a module what a test could see, and each test has hosts, ports, folders and screens of its own.
 */
export default defineConfig({
  test: {
    environment: 'node',
    globalSetup: ['tests/support/filled-demo-folder.ts'],
    reporters: [new ClosingLineReporter()],
    isolate: false,
    // Node keeps what it made of the source of workers and programs that tests start: they are up in two thirds of the time.
    env: {
      NODE_COMPILE_CACHE: fileURLToPath(new URL('./node_modules/.cache/panelwright-tests', import.meta.url)),
    },
    // Both cores of a small machine; the usual would leave one idle.
    maxWorkers: 2,
    // What is waited for comes when it comes: a busy machine is no failure.
    testTimeout: 60_000,
    hookTimeout: 120_000,
    expect: { poll: { timeout: 15_000 } },
    projects: [
      {
        extends: true,
        test: { name: 'domain', include: pure, setupFiles: [seeded] },
      },
      {
        extends: true,
        test: {
          name: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', ...pure],
          setupFiles: [seeded, 'tests/support/fresh-photos.ts'],
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          setupFiles: [seeded, 'tests/support/fresh-photos.ts', 'tests/support/closed-browser.ts'],
          testTimeout: 120_000,
        },
      },
    ],
  },
})
