import { appendFileSync, mkdirSync, renameSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'

export interface LogFileOptions {
  /** Made where it is not there. */
  readonly folder: string
  /** Epoch milliseconds: the real time, as a log is read beside other programs' logs. */
  readonly clock: () => number
  /** Told each line as well. */
  readonly print: (line: string) => void
}

/** The newest is 'panelwright.log', older ones have numbers: with these bounds no log ever fills a disk. */
const FILES = 5
const MOST_BYTES = 1_000_000
const NAME = 'panelwright.log'
/** A stack has far less. */
const MOST_LINE = 8_000

/** The file that is written to now. */
export const newestLog = (folder: string): string => join(folder, NAME)

/**
 * Keeps what the host has to report, each with its UTC time, in the last five files of 1 MB, and prints it. A disk that takes
 * none of it stops nothing: the line is printed all the same.
 */
export function openLog({ folder, clock, print }: LogFileOptions): (line: string) => void {
  const path = newestLog(folder)
  return (line) => {
    print(line)
    const entry = `${new Date(clock()).toISOString()} ${withoutSecrets(line.slice(0, MOST_LINE))}\n`
    try {
      mkdirSync(folder, { recursive: true, mode: 0o700 })
      if (sizeOf(path) + Buffer.byteLength(entry) > MOST_BYTES) rotate(folder)
      appendFileSync(path, entry, { mode: 0o600 })
    } catch {
      // Printed above; a log is no reason to end anything.
    }
  }
}

/**
 * Takes out what may never stand in a log, whatever the message of an error repeats: secrets of addresses, cookies, codes and
 * contact details as they are sent, e-mail addresses, telephone numbers, and whatever is as long as a token or a digest.
 */
export function withoutSecrets(line: string): string {
  return line
    .replaceAll(/([?&](?:enter|code)=)[^\s&"']+/gi, '$1…')
    .replaceAll(/(cookie["':\s=]+)[^\r\n]+/gi, '$1…')
    .replaceAll(/("(?:code|newCode|passphrase|phone|email|address)":\s*)"(?:[^"\\]|\\.)*"/g, '$1"…"')
    .replaceAll(/[\w.+-]+@[\w-]+(?:\.[\w-]+)+/g, '…')
    .replaceAll(/[\w-]{40,}/g, '…')
    .replaceAll(/\+\d[\d ()/-]{6,}\d/g, '…')
}

function rotate(folder: string): void {
  const numbered = (at: number) => join(folder, at === 0 ? NAME : `panelwright.${at}.log`)
  rmSync(numbered(FILES - 1), { force: true })
  for (let at = FILES - 2; at >= 0; at--)
    if (sizeOf(numbered(at)) > 0) renameSync(numbered(at), numbered(at + 1))
}

function sizeOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0
}
