import { rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** Where the demo lies that the tests of one run are given copies of. @param runId process id of the test runner */
export const filledDemoFolder = (runId: number): string => join(tmpdir(), `panelwright-filled-demo-${runId}`)

/** Called by the test runner at its end. */
export function teardown(): void {
  rmSync(filledDemoFolder(process.pid), { recursive: true, force: true })
}
