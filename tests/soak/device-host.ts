import { setTimeout } from 'node:timers/promises'
import { freePort, launchProgram, type LaunchedProgram } from '../support/program.ts'
import type { Random } from '../support/random.ts'

/** The host in a process of its own, on the same folder and port however often it is killed. */
export interface MortalHost {
  readonly port: number
  /** The address that the running one has printed. */
  readonly windowUrl: () => Promise<string>
  readonly kills: () => number
  /** Kills it, leaves it dead for a while and starts it again. */
  readonly killAndRestart: () => Promise<void>
  readonly end: () => Promise<void>
  /** What all of them have written to standard error. */
  readonly errors: () => string
}

const MOST_DEAD_MS = 2_500

export async function startMortalHost(dataDir: string, random: Random): Promise<MortalHost> {
  const port = await freePort()
  let program: LaunchedProgram = launchProgram(dataDir, port)
  let kills = 0
  let said = ''
  const kill = async () => {
    await program.kill()
    said += program.errors()
  }
  return {
    port,
    windowUrl: () => program.address,
    kills: () => kills,
    errors: () => said + program.errors(),
    killAndRestart: async () => {
      kills += 1
      await kill()
      await setTimeout(random.next() * MOST_DEAD_MS)
      program = launchProgram(dataDir, port)
      // One of four is killed again while it opens its folder.
      if (random.next() < 0.25) await setTimeout(random.next() * 400)
      else await program.address
    },
    end: () => program.kill(),
  }
}
