/** Names that Windows gives to devices; a file of such a name could not be unpacked there. */
const DEVICE = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i

/** Longest path that is written or taken, in UTF-16 units: under the 260 that older Windows allows, with room for a folder. */
const LONGEST_PATH = 200

/**
 * True for a path that stays inside its folder on every system, with `/` between its parts. Anything that a file system
 * could read in another way is refused: absolute paths, drives, `..`, back-slashes, control characters.
 */
export function isInside(path: string): boolean {
  if (path === '' || path.length > LONGEST_PATH) return false
  return path.split('/').every(isPlainName)
}

function isPlainName(name: string): boolean {
  if (name === '' || name === '.' || name === '..') return false
  // A bag may list CR and LF in names (percent-encoded), so these pass here and are never made by us.
  if (/[\\:*?"<>|]/.test(name) || hasControl(name)) return false
  return !name.endsWith('.') && !name.endsWith(' ') && !DEVICE.test(name)
}

function hasControl(name: string): boolean {
  return Array.from(name).some((letter) => letter < ' ' && letter !== '\r' && letter !== '\n')
}

/** One spelling for names that some file systems cannot tell apart: case, and composed or decomposed accents. */
export function foldedPath(path: string): string {
  return path.normalize('NFC').toLowerCase()
}

/** RFC 8493, 2.1.3: in manifests CR, LF and % are percent-encoded, and nothing else is. */
export function encodePath(path: string): string {
  return path.replace(/[%\r\n]/g, (letter) => ENCODED[letter] ?? letter)
}

/** The other way of {@link encodePath}; other percent signs stay as they are. */
export function decodePath(text: string): string {
  return text.replace(/%(25|0A|0D)/gi, (code) => DECODED[code.toUpperCase()] ?? code)
}

const ENCODED: Readonly<Record<string, string>> = { '%': '%25', '\r': '%0D', '\n': '%0A' }
const DECODED: Readonly<Record<string, string>> = { '%25': '%', '%0D': '\r', '%0A': '\n' }
