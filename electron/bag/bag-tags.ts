import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { BagInfo } from './bag-shapes.ts'
import { decodePath, encodePath } from './bag-paths.ts'

/** The texts beside the payload, as RFC 8493 sets them: lines that end with LF, in UTF-8. */
const BAG_VERSION = '1.0'
export const DECLARATION = 'bagit.txt'
export const INFO = 'bag-info.txt'
export const MANIFEST = 'manifest-sha256.txt'
export const TAG_MANIFEST = 'tagmanifest-sha256.txt'
export const PAYLOAD = 'data/'

export const declarationText = `BagIt-Version: ${BAG_VERSION}\nTag-File-Character-Encoding: UTF-8\n`

/** Values on one line each: a line break in one would read as the next label. */
export function infoText(info: BagInfo): string {
  return info.map(([label, value]) => `${label}: ${value.replace(/\s+/g, ' ').trim()}\n`).join('')
}

/** Digest, two blanks and path, as `sha256sum -c` reads them. */
export function manifestLine(sha256: string, path: string): string {
  return `${sha256}  ${encodePath(path)}\n`
}

/** Labels and values; lines that begin with a blank go on with the value before. */
export function readInfo(text: string): Result<BagInfo> {
  const info: [string, string][] = []
  for (const line of linesOf(text)) {
    const last = info.at(-1)
    if (/^[ \t]/.test(line)) {
      if (last) last[1] = `${last[1]} ${line.trim()}`
      continue
    }
    const [, label, value] = /^([^:\s][^:]*?)[ \t]*:[ \t]*(.*)$/.exec(line) ?? []
    if (label === undefined || value === undefined)
      return refuse('bad-input', `A line of ${INFO} cannot be read: '${line.slice(0, 60)}'.`, SEND_AGAIN)
    info.push([label, value.trim()])
  }
  return ok(info)
}

/** The file's version is known, or it says which one it is. */
export function checkDeclaration(text: string): Result<null> {
  const [, version] = /^\uFEFF?BagIt-Version[ \t]*:[ \t]*(\d+\.\d+)[ \t]*$/m.exec(text) ?? []
  if (version === undefined)
    return refuse('bad-input', `${DECLARATION} does not say which version of BagIt it follows.`, SEND_AGAIN)
  if (version !== BAG_VERSION)
    return refuse(
      'bad-input',
      `This bag follows BagIt ${version}; this program reads ${BAG_VERSION}.`,
      'Bring Panelwright up to date, or ask the sender for a bag of BagIt 1.0.',
    )
  const [, encoding] = /^Tag-File-Character-Encoding[ \t]*:[ \t]*(\S+)[ \t]*$/m.exec(text) ?? []
  return encoding?.toUpperCase() === 'UTF-8'
    ? ok(null)
    : refuse('bad-input', `${DECLARATION} does not say that the bag is written in UTF-8.`, SEND_AGAIN)
}

/** Digests by path. */
export function readManifest(text: string, name: string): Result<ReadonlyMap<string, string>> {
  const digests = new Map<string, string>()
  for (const line of linesOf(text)) {
    const [, sha256, listed] = /^([0-9a-fA-F]{64})[ \t]+\*?(.+)$/.exec(line) ?? []
    if (sha256 === undefined || listed === undefined)
      return refuse('bad-input', `A line of ${name} cannot be read: '${line.slice(0, 60)}'.`, SEND_AGAIN)
    const path = decodePath(listed)
    if (digests.has(path)) return refuse('bad-input', `${name} lists ${path} twice.`, SEND_AGAIN)
    digests.set(path, sha256.toLowerCase())
  }
  return ok(digests)
}

function linesOf(text: string): readonly string[] {
  return text.split(/\r\n|\r|\n/).filter((line) => line.trim() !== '')
}

export const SEND_AGAIN = 'Ask the sender for the file again; nothing of this one was taken.'
