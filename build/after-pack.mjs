/*
 * Asked by electron-builder once the files of an installer lie together: native packages must be those of the system and
 * processor that it is for. On a Mac both are made, but npm installs what the one at hand needs.
 */
import { readdirSync } from 'node:fs'
import { join } from 'node:path'

/** Processors by electron-builder's numbers. */
const ARCHES = new Map([
  [1, 'x64'],
  [3, 'arm64'],
])

export default function afterPack({ appOutDir, electronPlatformName, arch, packager }) {
  const system = `${electronPlatformName}-${ARCHES.get(arch)}`
  const modules = join(packager.getResourcesDir(appOutDir), 'app.asar.unpacked', 'node_modules')
  const files = readdirSync(modules, { recursive: true }).map((path) => path.replaceAll('\\', '/'))
  const missing = [`better-sqlite3/prebuilds/${system}.node`, `@img/sharp-${system}/`].filter(
    (wanted) => !files.some((path) => path.startsWith(wanted)),
  )
  if (missing.length > 0)
    throw new Error(
      `The packages for ${system} are not all here (${missing.join(', ')}): make this installer on a computer of its kind.`,
    )
}
