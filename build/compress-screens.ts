import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { constants, gzipSync } from 'node:zlib'

/**
 * Puts a compressed copy beside every script and style of the built screens, so that the host has nothing to compress while it
 * serves them: a tablet gets a third of the bytes. Fonts are compressed as they are.
 *
 * @param folder the built screens
 */
export function compressScreens(folder: string): void {
  const assets = join(folder, 'assets')
  for (const name of readdirSync(assets).filter((each) => /\.(js|css|svg)$/.test(each))) {
    const bytes = readFileSync(join(assets, name))
    writeFileSync(join(assets, `${name}.gz`), gzipSync(bytes, { level: constants.Z_BEST_COMPRESSION }))
  }
}
