import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { extname, join, relative, sep } from 'node:path'
import type { ReadScreen, ScreenFile } from './api/screens.ts'

/**
 * The built screens, found once: only what lies in the folder now can be asked for, whatever a path looks like. Files are
 * read when they are first asked for and kept; together they are a few megabytes.
 */
export function readScreenFiles(folder: string): ReadScreen {
  const paths = new Map(
    filesUnder(folder).map((file) => [`/${relative(folder, file).replaceAll(sep, '/')}`, file]),
  )
  const read = new Map<string, ScreenFile>()
  return (path) => {
    const file = path.endsWith(COMPRESSED) ? undefined : paths.get(path)
    if (file === undefined) return null
    const known = read.get(path) ?? readScreenFile(file, paths.get(path + COMPRESSED))
    read.set(path, known)
    return known
  }
}

/** The build's compressed copy of a file lies beside it under its name with this. */
const COMPRESSED = '.gz'

function readScreenFile(file: string, compressed: string | undefined): ScreenFile {
  const plain = { type: typeOf(file), bytes: new Uint8Array(readFileSync(file)) }
  return compressed === undefined ? plain : { ...plain, gzipped: new Uint8Array(readFileSync(compressed)) }
}

function filesUnder(folder: string): readonly string[] {
  if (!existsSync(folder)) return []
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webp': 'image/webp',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.ttf': 'font/ttf',
  '.md': 'text/plain; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
}

function typeOf(file: string): string {
  return TYPES[extname(file)] ?? 'application/octet-stream'
}
