import { homedir } from 'node:os'
import { resolve } from 'node:path'
import process from 'node:process'
import { parseArgs } from 'node:util'
import { DatabaseProblem } from '../../db/database-problem.ts'
import { errorMessage } from '../../domain/text/error-words.ts'
import { defaultDataFolder } from '../data-folder.ts'
import { OutFolderProblem } from './write-out.ts'

/** What goes wrong because of how the command was given; its message says how to give it. */
export class UsageProblem extends Error {
  override readonly name = 'UsageProblem'
}

/**
 * The values of `--name VALUE` flags, each given once at most, and true for each of `switches` that is given: these take no
 * value.
 *
 * @throws UsageProblem for anything else on the line
 */
export function readFlags<N extends string, S extends string = never>(
  argv: readonly string[],
  names: readonly N[],
  switches: readonly S[] = [],
): Partial<Record<N, string>> & Partial<Record<S, boolean>> {
  try {
    const options = Object.fromEntries([
      ...names.map((name) => [name, { type: 'string' }] as const),
      ...switches.map((name) => [name, { type: 'boolean' }] as const),
    ])
    const { values } = parseArgs({ args: [...argv], options })
    return values as Partial<Record<N, string>> & Partial<Record<S, boolean>>
  } catch (error) {
    throw new UsageProblem(errorMessage(error))
  }
}

/** The value of a flag that must be given, such as '--out'. @throws UsageProblem without one */
export function needed(value: string | undefined, flag: string): string {
  if (value === undefined || value === '') throw new UsageProblem(`${flag} is missing.`)
  return value
}

/** The data folder that is named, seen from where the command was given, or this account's usual one. */
export function dataFolder(named: string | undefined): string {
  if (named === '') throw new UsageProblem('--data needs a folder.')
  return named === undefined ? defaultDataFolder({ ...process, home: homedir() }) : resolve(named)
}

/** Aborted by the first Ctrl-C, so that what is half-done can be cleared away; a second one ends the process at once. */
export function stopSignal(): AbortSignal {
  const stopping = new AbortController()
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => stopping.abort())
  return stopping.signal
}

/**
 * Runs a command and ends with its exit code; 2 when it was given wrongly or its folder cannot be used, with what to do
 * on standard error.
 */
export async function runCommand(
  usage: string,
  run: (argv: readonly string[]) => Promise<number>,
): Promise<void> {
  try {
    process.exitCode = await run(process.argv.slice(2))
  } catch (error) {
    process.exitCode = 2
    if (error instanceof UsageProblem) console.error(`${error.message}\n\n${usage}`)
    else if (error instanceof DatabaseProblem || error instanceof OutFolderProblem)
      console.error(error.message)
    else throw error
  }
}
