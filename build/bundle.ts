/*
 * Builds dist/: the screens (renderer/) and the host with its commands (electron/), with what they were built from and the
 * licences of all that is in them. Called by run.mjs with the digest of the sources, which is left as the stamp once
 * everything is in place, and by tests with another folder than dist/ after it. The same commit gives the same bytes.
 */
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import react from '@vitejs/plugin-react'
import { build } from 'vite'
import { bringAlong } from './bring-along.ts'
import { builtFrom } from './built-from.ts'
import { compressScreens } from './compress-screens.ts'
import { makeInstallable } from './installable.ts'
import { noteScreenLinks } from './screen-links.ts'
import { licencesText, noteBundled, noteFolder, readLicence, shippedFolders } from './licences.ts'

/** What Node or Electron is started on, by the name run.mjs knows it by. Workers are found by `bringAlong`. */
const hostEntries = {
  start: 'electron/start.ts',
  main: 'electron/main.ts',
  check: 'electron/cli/check.ts',
  reports: 'electron/cli/reports.ts',
  takeout: 'electron/cli/take-out.ts',
  takein: 'electron/cli/take-in.ts',
  carfile: 'electron/cli/carfile.ts',
  backup: 'electron/cli/backup.ts',
  restore: 'electron/cli/restore.ts',
}

// Vite would take over another value from the environment, and with it React's development code.
process.env['NODE_ENV'] = 'production'

const root = fileURLToPath(new URL('..', import.meta.url))
const [, , sources = '', dist = join(root, 'dist')] = process.argv
const fresh = join(dist, `next-${process.pid}`)
/** Folders of the packages that something was bundled from. */
const bundled = new Set<string>()

try {
  await buildScreens(join(fresh, 'renderer'))
  await makeInstallable(join(fresh, 'renderer'), [noteBundled(bundled)])
  compressScreens(join(fresh, 'renderer'))
  await buildHost(join(fresh, 'electron'))
  const packages = new Set([...bundled, ...shippedFolders(root)])
  const licences = licencesText(
    root,
    [...packages].map((folder) => readLicence(folder)),
  )
  mkdirSync(join(fresh, 'licences'))
  // For the screens, and for a folder of its own beside the installed program, where no archive hides it.
  for (const folder of ['renderer', 'licences']) writeFileSync(join(fresh, folder, 'licences.txt'), licences)
  writeFileSync(join(fresh, 'electron', 'built-from.json'), JSON.stringify(builtFrom(root), null, 2))
  putInPlace(['renderer', 'electron', 'licences'])
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 1
} finally {
  rmSync(fresh, { recursive: true, force: true })
}

/** Nothing is inlined, neither scripts nor fonts: the pages are served under a strict Content-Security-Policy. */
async function buildScreens(outDir: string): Promise<void> {
  await build({
    configFile: false,
    root: join(root, 'renderer'),
    logLevel: 'warn',
    plugins: [react(), noteBundled(bundled), noteScreenLinks()],
    resolve: {
      alias: [{ find: /^temporal-polyfill$/, replacement: join(root, 'renderer', 'temporal.ts') }],
    },
    build: {
      outDir,
      emptyOutDir: true,
      target: 'es2024',
      assetsInlineLimit: 0,
      // In kB. Served from this machine or its network; what opening a screen costs is measured by the bench.
      chunkSizeWarningLimit: 1000,
      modulePreload: { polyfill: false },
      rolldownOptions: {
        // Packages mark components with 'use client', which means nothing here.
        onLog: (level, log, show) => {
          if (log.code !== 'MODULE_LEVEL_DIRECTIVE') show(level, log)
        },
      },
    },
  })
}

/** Everything is bundled but the packages that package.json keeps as `dependencies` and those Electron brings itself. */
async function buildHost(outDir: string): Promise<void> {
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    readonly dependencies: Readonly<Record<string, string>>
  }
  await build({
    configFile: false,
    root,
    logLevel: 'warn',
    plugins: [bringAlong(root, (path) => noteFolder(bundled, path)), noteBundled(bundled)],
    ssr: { target: 'node', noExternal: true, external: ['electron', ...Object.keys(manifest.dependencies)] },
    build: {
      outDir,
      emptyOutDir: true,
      ssr: true,
      target: 'node24',
      copyPublicDir: false,
      rolldownOptions: {
        input: hostEntries,
        // One flat folder, so that what a module expects beside itself is beside it whatever chunk it lands in.
        output: { entryFileNames: '[name].js', chunkFileNames: '[name]-[hash].js' },
      },
    },
  })
}

/** Swaps the finished folders in; without a stamp a half-done swap is built again. */
function putInPlace(folders: readonly string[]): void {
  const stamp = join(dist, 'stamp')
  rmSync(stamp, { force: true })
  for (const folder of folders) {
    rmSync(join(dist, folder), { recursive: true, force: true })
    renameSync(join(fresh, folder), join(dist, folder))
  }
  writeFileSync(stamp, sources)
}
