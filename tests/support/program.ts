import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { createServer } from 'node:net'
import process from 'node:process'
import { fileURLToPath } from 'node:url'

/** The program in a process of its own, which can be killed. */
export interface Program {
  /** The printed address, with the secret of this run. */
  readonly windowUrl: string
  /** As when the power goes: nothing is said and nothing is tidied up. */
  readonly kill: () => Promise<void>
}

const start = fileURLToPath(new URL('../../electron/start.ts', import.meta.url))

/** Starts the program from source, without a window; resolves when it has printed its address. */
export async function startProgram(dataDir: string, port: number): Promise<Program> {
  const child = spawn(process.execPath, [start, '--data', dataDir, '--port', String(port), '--no-window'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  return {
    windowUrl: await printedAddress(child),
    kill: async () => {
      const ended = once(child, 'exit')
      child.kill('SIGKILL')
      await ended
    },
  }
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

function printedAddress(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let output = ''
    const read = (text: Buffer) => {
      output += text.toString()
      const address = /Panelwright is ready at (\S+)/.exec(output)?.[1]
      if (address !== undefined) resolve(address)
    }
    child.stdout?.on('data', read)
    child.stderr?.on('data', read)
    child.on('exit', () => reject(new Error(`The program ended: ${output}`)))
  })
}
