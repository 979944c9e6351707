import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { expect, test } from 'vitest'
import { BagProblem } from '../../../electron/bag/bag-problem.ts'
import { writeBagArchive, writeBagFolder } from '../../../electron/bag/write-bag.ts'
import {
  describeBagTools,
  emptyFolder,
  entry,
  filesBelow,
  runTool,
  save,
  sha256Of,
  smallBag,
} from '../../support/bags.ts'

const missing = new BagProblem({ code: 'storage', message: 'A photo is missing.', next: 'Look for it.' })

function* withMissing() {
  yield* smallBag.entries as Iterable<ReturnType<typeof entry>>
  yield {
    path: 'photos/b.jpg',
    open: () => {
      throw missing
    },
  }
}

test('a folder holds the payload and the four texts of the standard', async () => {
  const to = join(emptyFolder(), 'bag')
  const written = await writeBagFolder(smallBag, to)
  expect(written).toEqual({ ok: true, value: { files: 2, bytes: 200_007 } })
  expect(filesBelow(to)).toEqual([
    'bag-info.txt',
    'bagit.txt',
    'data/README.txt',
    'data/photos/a.jpg',
    'manifest-sha256.txt',
    'tagmanifest-sha256.txt',
  ])
  expect(readFileSync(join(to, 'bagit.txt'), 'utf8')).toBe(
    'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n',
  )
  expect(readFileSync(join(to, 'bag-info.txt'), 'utf8')).toMatch(
    /^Source-Organization: Larkspur Bodies\nBagging-Date: \d{4}-\d\d-\d\d\nPayload-Oxum: 200007\.2\n$/,
  )
  expect(readFileSync(join(to, 'manifest-sha256.txt'), 'utf8')).toBe(
    `${sha256Of(join(to, 'data/README.txt'))}  data/README.txt\n${sha256Of(join(to, 'data/photos/a.jpg'))}  data/photos/a.jpg\n`,
  )
})

test('CR, LF and % in a name are percent-encoded in the list, and nothing else is (RFC 8493, 2.1.3)', async () => {
  const to = join(emptyFolder(), 'bag')
  await writeBagFolder({ info: [], entries: [entry('50% of\r\nä b.txt', 'x')] }, to)
  expect(readFileSync(join(to, 'manifest-sha256.txt'), 'utf8')).toMatch(
    /^[0-9a-f]{64} {2}data\/50%25 of%0D%0Aä b\.txt\n$/,
  )
})

test('a missing original ends the writing with its own words and leaves nothing', async () => {
  const folder = emptyFolder()
  const result = await writeBagFolder({ info: [], entries: withMissing() }, join(folder, 'bag'))
  expect(result).toEqual({ ok: false, refusal: missing.refusal })
  expect(readdirSync(folder)).toEqual([])
})

test('a stop in the middle of a file leaves nothing', async () => {
  const folder = emptyFolder()
  const stop = new AbortController()
  const endless = {
    path: 'endless',
    open: () =>
      new Readable({
        read() {
          this.push(Buffer.alloc(1_000))
          setImmediate(() => stop.abort())
        },
      }),
  }
  const bag = { info: [], entries: [entry('a', 'a'), endless] }
  const result = await writeBagFolder(bag, join(folder, 'bag'), { signal: stop.signal })
  expect(result).toMatchObject({ ok: false, refusal: { code: 'not-now' } })
  expect(readdirSync(folder)).toEqual([])
})

test('a folder that is there is left as it is', async () => {
  const folder = emptyFolder()
  writeFileSync(join(folder, 'mine.txt'), 'mine')
  expect(await writeBagFolder(smallBag, folder)).toMatchObject({ ok: false, refusal: { code: 'already' } })
  expect(filesBelow(folder)).toEqual(['mine.txt'])
})

test('a full disk is told in words, and nothing half-written stays', async () => {
  const full = () =>
    new Readable({
      read() {
        this.destroy(Object.assign(new Error('no space'), { code: 'ENOSPC' }))
      },
    })
  const folder = emptyFolder()
  const result = await writeBagFolder({ info: [], entries: [{ path: 'a', open: full }] }, join(folder, 'bag'))
  expect(result).toMatchObject({ ok: false, refusal: { code: 'storage' } })
  if (!result.ok) expect(result.refusal.message).toContain('disk is full')
  expect(readdirSync(folder)).toEqual([])
})

test('where no folder can be made, the words say so', async () => {
  const folder = emptyFolder()
  writeFileSync(join(folder, 'file'), '')
  const result = await writeBagFolder(smallBag, join(folder, 'file', 'bag'))
  expect(result).toMatchObject({ ok: false, refusal: { code: 'storage' } })
})

test.each(['../a', '/a', 'a/../../b', 'C:/a', 'a\\b', 'a//b', 'nul', 'a\u0000b', ''])(
  'a name like %j is a defect of whoever asks for it',
  async (path) => {
    const folder = emptyFolder()
    await expect(
      writeBagFolder({ info: [], entries: [entry(path, 'x')] }, join(folder, 'bag')),
    ).rejects.toThrow('no name for a file')
    expect(readdirSync(folder)).toEqual([])
  },
)

test('an archive that ends early ends with its reason and is no archive', async () => {
  const path = join(emptyFolder(), 'bag.zip')
  await expect(save(writeBagArchive({ info: [], entries: withMissing() }, 'bag'), path)).rejects.toThrow(
    'A photo is missing.',
  )
  expect(readFileSync(path).includes('PK\u0005\u0006')).toBe(false)
})

test('an archive whose reader goes away asks for no further file', async () => {
  const opened: string[] = []
  const entries = ['a', 'b', 'c'].map((path) => ({
    path,
    open: () => {
      opened.push(path)
      return Readable.from(Array.from({ length: 50 }, () => Buffer.alloc(65_536)))
    },
  }))
  const stream = writeBagArchive({ info: [], entries }, 'bag')
  for await (const _chunk of stream) break
  await new Promise((resolve) => setTimeout(resolve, 50))
  expect(opened).toEqual(['a'])
})

describeBagTools('by tools that are not ours', () => {
  test('sha256sum finds every file of a folder as it is listed', async () => {
    const to = join(emptyFolder(), 'bag')
    await writeBagFolder(smallBag, to)
    expect(runTool('sha256sum', ['-c', '--strict', 'manifest-sha256.txt'], to)).toBe(
      'data/README.txt: OK\ndata/photos/a.jpg: OK\n',
    )
    expect(runTool('sha256sum', ['-c', '--strict', 'tagmanifest-sha256.txt'], to)).toBe(
      'bagit.txt: OK\nbag-info.txt: OK\nmanifest-sha256.txt: OK\n',
    )
  })

  test('unzip finds an archive whole, and what it unpacks is the same', async () => {
    const folder = emptyFolder()
    const zip = await save(writeBagArchive(smallBag, 'larkspur'), join(folder, 'bag.zip'))
    expect(runTool('unzip', ['-t', zip], folder)).toContain('No errors detected')
    mkdirSync(join(folder, 'out'))
    runTool('unzip', ['-q', zip, '-d', 'out'], folder)
    runTool('sha256sum', ['-c', '--strict', 'manifest-sha256.txt'], join(folder, 'out', 'larkspur'))
    runTool('sha256sum', ['-c', '--strict', 'tagmanifest-sha256.txt'], join(folder, 'out', 'larkspur'))
  })
})
