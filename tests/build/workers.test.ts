import { globSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import readExcelFile from 'read-excel-file/node'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { build } from 'vite'
import { bringAlong } from '../../build/bring-along.ts'
import type * as WorkbookMakerFile from '../../electron/export/workbook-maker.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
let dist: string
beforeEach(() => {
  dist = mkdtempSync(join(tmpdir(), 'panelwright-workers-'))
})
afterEach(() => rmSync(dist, { recursive: true, force: true }))

test('every worker is reached by a literal address, which the build puts it beside the bundle for', () => {
  const sources = globSync('electron/**/*.ts', { cwd: root })
  const workers = sources.filter((path) => path.endsWith('-worker.ts'))
  expect(workers.length).toBeGreaterThan(3)
  const texts = sources.map((path) => readFileSync(join(root, path), 'utf8'))
  for (const worker of workers) {
    const address = `new URL('./${basename(worker)}', import.meta.url)`
    expect([worker, texts.filter((text) => text.includes(address)).length]).toEqual([worker, 1])
  }
})

test('a built worker does its work where no source is', async () => {
  await build({
    configFile: false,
    root,
    logLevel: 'silent',
    plugins: [bringAlong(root)],
    ssr: { target: 'node', noExternal: true },
    build: {
      outDir: dist,
      emptyOutDir: false,
      ssr: true,
      copyPublicDir: false,
      rolldownOptions: {
        input: { maker: join(root, 'electron/export/workbook-maker.ts') },
        output: { entryFileNames: '[name].js', format: 'es' },
      },
    },
  })
  const built = pathToFileURL(join(dist, 'maker.js')).href
  const { createWorkbookMaker } = (await import(built)) as typeof WorkbookMakerFile
  const maker = createWorkbookMaker()
  const book = await maker.toXlsx([
    { name: 'Hours', columns: [{ head: 'Hours h', kind: 'hours' }], rows: [[2.25]] },
  ])
  await maker.close()
  const [sheet] = await readExcelFile(Buffer.from(book))
  expect(sheet?.data).toEqual([['Hours h'], [2.25]])
})
