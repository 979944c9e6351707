import { execFile } from 'node:child_process'
import process from 'node:process'
import { fileURLToPath } from 'node:url'

export interface ScriptEnd {
  readonly code: number
  /** Standard output, then standard error. */
  readonly out: string
}

/** Runs a script of this repository by its path from the top, on the Node that the tests run on. */
export function runScript(path: string, ...args: readonly string[]): Promise<ScriptEnd> {
  const script = fileURLToPath(new URL(`../../${path}`, import.meta.url))
  return new Promise((resolve) => {
    execFile(process.execPath, [script, ...args], (error, stdout, stderr) => {
      resolve({ code: error ? Number(error.code) : 0, out: stdout + stderr })
    })
  })
}
