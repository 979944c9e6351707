import { resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { isCarFileName } from '../domain/report/car-file-name.ts'
import { errorMessage } from '../domain/text/error-words.ts'
import { isLocalDate } from '../domain/time/local-date.ts'

export interface StartOptions {
  /** Absolute path; the host makes it when it is not there. */
  readonly dataDir: string
  readonly demo: boolean
  /** Day up to which the demo is filled, as YYYY-MM-DD; the real day when undefined. */
  readonly today: string | undefined
  /** TCP port, 0 for any free one; the host's usual port when undefined. */
  readonly port: number | undefined
  readonly window: boolean
}

export type ParsedStart =
  | {
      readonly ok: true
      readonly options: StartOptions
      /** A car's file was named: the window shows where it is brought in. */
      readonly isWithCarFile: boolean
    }
  | { readonly ok: false; readonly message: string }

const startUsage = `npm start -- [--data DIR] [--demo [--today DATE]] [--port N] [--no-window]
  --data DIR    where everything is kept (made when it is not there)
  --demo        fills an empty data folder with the demo workshop
  --today DATE  fills the demo up to this day, as 2026-11-27
  --port N      port to listen on, 0 for any free one
  --no-window   opens no window, prints the address`

/**
 * Reads the flags of `npm start`.
 *
 * @param usualDataDir the data folder when `--data` is not given
 * @param cwd folder that a relative `--data` starts from
 */
export function parseStartOptions(argv: readonly string[], usualDataDir: string, cwd: string): ParsedStart {
  const flags = readFlags(argv)
  if ('message' in flags) return { ok: false, message: `${flags.message}\n\n${startUsage}` }
  const { data, demo = false, today, port } = flags.values
  const [named, ...more] = flags.positionals
  if (flags.positionals.some(isAddress)) return refuse('Panelwright opens no addresses.')
  if (more.length > 0 || (named !== undefined && !isCarFile(named)))
    return refuse(`'${more[0] ?? named}' is not known.\n\n${startUsage}`)
  if (data === '') return refuse('--data needs a folder.')
  if (today !== undefined && !demo) return refuse('--today only goes with --demo.')
  if (today !== undefined && !isLocalDate(today))
    return refuse(`'${today}' is not a day: write it as 2026-11-27.`)
  if (port !== undefined && !isPort(port))
    return refuse(`'${port}' is not a port: give a number from 0 to 65535.`)
  return {
    ok: true,
    options: {
      dataDir: data === undefined ? usualDataDir : resolve(cwd, data),
      demo,
      today,
      port: port === undefined ? undefined : Number(port),
      window: !flags.values['no-window'],
    },
    isWithCarFile: named !== undefined,
  }
}

function readFlags(argv: readonly string[]) {
  try {
    return parseArgs({
      args: [...argv],
      // The system names the file of a car that somebody opens.
      allowPositionals: true,
      options: {
        data: { type: 'string' },
        demo: { type: 'boolean' },
        today: { type: 'string' },
        port: { type: 'string' },
        'no-window': { type: 'boolean' },
      },
    })
  } catch (error) {
    return { message: errorMessage(error) }
  }
}

function refuse(message: string): ParsedStart {
  return { ok: false, message }
}

/** By its name alone: what is in it is looked at when it is brought in. Linux names a file by its address. */
export function isCarFile(argument: string): boolean {
  return isCarFileName(argument) && !argument.startsWith('-') && !isAddress(argument)
}

/** Of anything but a file. A scheme has two letters or more: with one it is a drive. */
function isAddress(argument: string): boolean {
  return /^(?!file:\/\/\/)[a-z][a-z\d+.-]+:/i.test(argument)
}

function isPort(text: string): boolean {
  return /^\d{1,5}$/.test(text) && Number(text) <= 65535
}
