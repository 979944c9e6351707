import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { createServer } from 'node:net'
import process from 'node:process'
import { fileURLToPath } from 'node:url'

/** The program in a process of its own, which can be killed at any moment. */
export interface LaunchedProgram {
  /** The printed address, with the secret of this run; rejects when the program ends before. */
  readonly address: Promise<string>
  /** As when the power goes: nothing is said and nothing is tidied up. Resolves when the process is gone. */
  readonly kill: () => Promise<void>
  /** What it has written to standard error. */
  readonly errors: () => string
}

export interface Program {
  readonly windowUrl: string
  readonly kill: LaunchedProgram['kill']
}

/** As built, like the screens that it serves: the scripts that run tests build first, and it is up in a third of a second. */
const start = fileURLToPath(new URL('../../dist/electron/start.js', import.meta.url))

/**
 * Starts the program without a window.
 *
 * @param port 0 for any free one
 * @param file the built program that is started
 */
export function launchProgram(dataDir: string, port: number, file = start): LaunchedProgram {
  const child = spawn(process.execPath, [file, '--data', dataDir, '--port', String(port), '--no-window'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const ended = once(child, 'close')
  let errors = ''
  child.stderr.setEncoding('utf8').on('data', (text: string) => (errors += text))
  const address = printedAddress(child, () => errors)
  // Whoever kills it before it is ready does not wait for its address.
  address.catch(() => {})
  return {
    address,
    kill: async () => {
      child.kill('SIGKILL')
      await ended
    },
    errors: () => errors,
  }
}

/** Starts the program without a window; resolves when it has printed its address. */
export async function startProgram(dataDir: string, port: number): Promise<Program> {
  const { address, kill } = launchProgram(dataDir, port)
  return { windowUrl: await address, kill }
}

/** A port that nobody has now, so that a host that is started again can be found where it was. */
export async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1')
  await once(server, 'listening')
  const address = server.address()
  server.close()
  await once(server, 'close')
  if (address === null || typeof address === 'string') throw new Error('There is no port.')
  return address.port
}

function printedAddress(child: ChildProcess, errors: () => string): Promise<string> {
  return new Promise((resolve, reject) => {
    let output = ''
    child.stdout?.on('data', (text: Buffer) => {
      output += text.toString()
      const address = /Panelwright is ready at (\S+)/.exec(output)?.[1]
      if (address !== undefined) resolve(address)
    })
    child.on('close', () => reject(new Error(`The program ended: ${output}${errors()}`)))
  })
}
