import { chmodSync, cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { extractAll } from '@electron/asar'
import { build, type Configuration, Platform } from 'app-builder-lib'

/** Where the fuses of an Electron program begin, and its own setting of them, as @electron/fuses looks for them. */
const FUSES = `dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX\u0001\u0009${'0'.repeat(9)}`

export interface Staged {
  /** The files of the program, as plain files. */
  readonly app: string
  /** What lies around them in the installed folder: licences, and the stand-in for the program file. */
  readonly around: string
}

/**
 * Has electron-builder put the program together for this Linux computer by the configuration of the installers, with a
 * stand-in for the Electron runtime, and unpacks its archive: exactly the files that an installer would hold.
 *
 * @param root the top of the tree, with a build in dist/
 * @param into a folder for it, emptied first
 * @throws Error where a package is missing or not made for this computer
 */
export async function stage(root: string, into: string): Promise<Staged> {
  const scratch = mkdtempSync(join(tmpdir(), 'panelwright-stage-'))
  rmSync(into, { recursive: true, force: true })
  try {
    const output = join(scratch, 'out')
    await build({
      projectDir: root,
      publish: 'never',
      targets: Platform.LINUX.createTarget('dir'),
      config: { ...stagedConfiguration(root), electronDist: standIn(scratch), directories: { output } },
    })
    const around = join(output, 'linux-unpacked')
    const app = join(into, 'app')
    mkdirSync(into, { recursive: true })
    extractAll(join(around, 'resources', 'app.asar'), app)
    for (const archive of ['app.asar', 'app.asar.unpacked'])
      rmSync(join(around, 'resources', archive), { recursive: true })
    cpSync(around, join(into, 'around'), { recursive: true })
    return { app, around: join(into, 'around') }
  } finally {
    rmSync(scratch, { recursive: true, force: true })
  }
}

function stagedConfiguration(root: string): Configuration {
  const text = readFileSync(join(root, 'build', 'electron-builder.json'), 'utf8')
  const configuration = JSON.parse(text) as Configuration & { readonly afterPack: string }
  return { ...configuration, afterPack: join(root, configuration.afterPack) }
}

/** A folder that electron-builder takes for an unpacked Electron. */
function standIn(scratch: string): string {
  const folder = join(scratch, 'electron')
  mkdirSync(join(folder, 'resources'), { recursive: true })
  writeFileSync(join(folder, 'electron'), FUSES, 'latin1')
  chmodSync(join(folder, 'electron'), 0o755)
  writeFileSync(join(folder, 'LICENSE'), 'Here the licence of Electron stands.\n')
  return folder
}
