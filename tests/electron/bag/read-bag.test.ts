import { appendFileSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Readable } from 'node:stream'
import { describe, expect, test } from 'vitest'
import { ZipFile } from 'yazl'
import type { OpenBag } from '../../../electron/bag/bag-shapes.ts'
import { readBag } from '../../../electron/bag/read-bag.ts'
import { writeBagArchive, writeBagFolder } from '../../../electron/bag/write-bag.ts'
import { BAG_LIMITS, emptyFolder, entry, save, smallBag } from '../../support/bags.ts'

async function folderBag(): Promise<string> {
  const to = join(emptyFolder(), 'bag')
  await writeBagFolder(smallBag, to)
  return to
}

async function archiveBag(): Promise<string> {
  return save(writeBagArchive(smallBag, 'larkspur'), join(emptyFolder(), 'bag.zip'))
}

async function opened(path: string): Promise<OpenBag> {
  const result = await readBag(path, BAG_LIMITS)
  if (!result.ok) throw new Error(result.refusal.message)
  return result.value
}

async function refused(path: string, limits = BAG_LIMITS): Promise<string> {
  const result = await readBag(path, limits)
  if (result.ok) throw new Error('The bag was taken.')
  expect(result.refusal.next).not.toBe('')
  return result.refusal.message
}

/** Bytes changed in place, each the same length as before. */
function patch(path: string, ...changes: readonly (readonly [from: string, to: string])[]): void {
  let text = readFileSync(path, 'latin1')
  for (const [from, to] of changes) {
    expect(text).toContain(from)
    expect(to).toHaveLength(from.length)
    text = text.replaceAll(from, to)
  }
  writeFileSync(path, text, 'latin1')
}

describe.each([
  ['a folder', folderBag],
  ['an archive', archiveBag],
])('%s', (_what, make) => {
  test('is read as it was written', async () => {
    const bag = await opened(await make())
    expect([...bag.files.keys()]).toEqual(['README.txt', 'photos/a.jpg'])
    expect(bag.files.get('photos/a.jpg')).toMatchObject({ bytes: 200_000 })
    expect(bag.info[0]).toEqual(['Source-Organization', 'Larkspur Bodies'])
    expect(await bag.readText('README.txt', 100)).toEqual({ ok: true, value: 'Read me' })
    expect(await bag.readText('README.txt', 3)).toMatchObject({ ok: false })
    const chunks: Buffer[] = []
    for await (const chunk of await bag.read('photos/a.jpg')) chunks.push(chunk as Buffer)
    expect(Buffer.concat(chunks).equals(Buffer.alloc(200_000, 7))).toBe(true)
    await expect(bag.read('photos/b.jpg')).rejects.toThrow('holds no')
    await bag.close()
  })

  test('with more files or bytes than may be is refused before it is read', async () => {
    const path = await make()
    expect(await refused(path, { ...BAG_LIMITS, mostFiles: 3 })).toContain('more than 3 files')
    expect(await refused(path, { ...BAG_LIMITS, mostBytes: 150_000 })).toContain('unpacks to more than')
  })
})

test('names with CR, LF and % come back as they were', async () => {
  const to = join(emptyFolder(), 'bag')
  const name = '50% of\r\nä %0A b.txt'
  await writeBagFolder({ info: [], entries: [entry(name, 'x')] }, to)
  expect([...(await opened(to)).files.keys()]).toEqual([name])
})

describe('a bag that is not whole names the file', () => {
  test('one byte changed in the payload', async () => {
    const path = await folderBag()
    patch(join(path, 'data/README.txt'), ['me', 'it'])
    expect(await refused(path)).toContain('data/README.txt is not what it was')
  })

  test('one byte changed in an archive', async () => {
    const path = await archiveBag()
    patch(path, ['\u0007\u0007\u0007\u0007PK', '\u0007\u0007\u0006\u0007PK'])
    expect(await refused(path)).toContain('data/photos/a.jpg is not what it was')
  })

  test('one byte changed in squeezed bytes of an archive', async () => {
    const path = await archiveBag()
    const bytes = readFileSync(path)
    const start = bytes.indexOf('larkspur/data/README.txt') + 'larkspur/data/README.txt'.length
    bytes[start] = 0xff
    writeFileSync(path, bytes)
    expect(await refused(path)).toContain('data/README.txt is not what it was')
  })

  test('one byte changed in bag-info.txt', async () => {
    const path = await folderBag()
    patch(join(path, 'bag-info.txt'), ['Larkspur', 'Larkspar'])
    expect(await refused(path)).toContain('bag-info.txt is not what it was')
  })

  test('a byte changed in the list', async () => {
    const path = await folderBag()
    patch(join(path, 'manifest-sha256.txt'), ['README', 'READYE'])
    expect(await refused(path)).toContain('data/READYE.txt is missing')
  })

  test('a file missing', async () => {
    const path = await folderBag()
    rmSync(join(path, 'data/photos/a.jpg'))
    expect(await refused(path)).toContain('data/photos/a.jpg is missing')
  })

  test.each(['data/extra.txt', 'extra.txt'])('a file more: %s', async (name) => {
    const path = await folderBag()
    writeFileSync(join(path, name), '')
    expect(await refused(path)).toContain(`${name} is in the bag, but not in its lists`)
  })

  test('a file changed after the bag was opened', async () => {
    const path = await folderBag()
    const bag = await opened(path)
    patch(join(path, 'data/README.txt'), ['me', 'it'])
    expect(await bag.readText('README.txt', 100)).toMatchObject({ ok: false })
    expect(await refused(path)).toContain('README.txt')
  })

  test.each(['manifest-sha256.txt', 'tagmanifest-sha256.txt', 'bagit.txt'])('%s missing', async (name) => {
    const path = await folderBag()
    rmSync(join(path, name))
    expect(await refused(path)).toContain(name)
  })

  test('the end of an archive missing', async () => {
    const path = await archiveBag()
    writeFileSync(path, readFileSync(path).subarray(0, -30))
    expect(await refused(path)).toContain('no .zip archive')
  })
})

describe('a bag that is not of our time or kind', () => {
  test('a newer version says which one it is', async () => {
    const path = await folderBag()
    patch(join(path, 'bagit.txt'), ['1.0', '2.1'])
    expect(await refused(path)).toContain('BagIt 2.1')
  })

  test('parts to be fetched from the network are refused', async () => {
    const path = await folderBag()
    writeFileSync(join(path, 'fetch.txt'), 'https://example.org/a 3 data/a\n')
    expect(await refused(path)).toContain('fetched from the network')
  })

  test('a folder without bagit.txt, a file that is no archive and nothing at all are told apart', async () => {
    expect(await refused(emptyFolder())).toContain('This is no bag')
    const file = join(emptyFolder(), 'a.zip')
    writeFileSync(file, 'not an archive')
    expect(await refused(file)).toContain('no .zip archive')
    expect(await refused(join(emptyFolder(), 'nowhere'))).toContain('not there')
  })

  test('a line of a list that is none is shown', async () => {
    const path = await folderBag()
    appendFileSync(join(path, 'tagmanifest-sha256.txt'), 'hello\n')
    expect(await refused(path)).toContain("'hello'")
  })

  test('a list that names a file outside of the payload is refused', async () => {
    const path = await folderBag()
    appendFileSync(join(path, 'manifest-sha256.txt'), `${'0'.repeat(64)}  ../outside\n`)
    expect(await refused(path)).toContain('../outside, which does not lie in data/')
  })
})

test('a link in a folder is refused and not followed', async () => {
  const path = await folderBag()
  const outside = emptyFolder()
  writeFileSync(join(outside, 'a.jpg'), Buffer.alloc(200_000, 7))
  rmSync(join(path, 'data/photos'), { recursive: true })
  symlinkSync(outside, join(path, 'data/photos'))
  expect(await refused(path)).toContain('a link or something else that is no file: data/photos')
})

describe('an archive that means harm', () => {
  /** An archive of a whole bag and one file more. */
  async function withEntry(name: string, options: { readonly mode?: number } = {}): Promise<string> {
    const zip = new ZipFile()
    zip.addBuffer(Buffer.from('BagIt-Version: 1.0\n'), 'bag/bagit.txt')
    zip.addBuffer(Buffer.from('x'), name, options)
    zip.end()
    return save(zip.outputStream as Readable, join(emptyFolder(), 'bag.zip'))
  }

  test.each([
    ['climbs out', 'bag/xx/y', 'bag/../y'],
    ['is absolute', 'xroot/y', '/root/y'],
    ['names a drive', 'cx/root/y', 'c:/root/y'],
    ['has back-slashes', 'bag/xxxy', 'bag/..\\y'],
    ['holds a zero', 'bag/xy', 'bag/\u0000y'],
  ])('a path that %s is refused by name', async (_how, plain, evil) => {
    const path = await withEntry(plain)
    patch(path, [plain, evil])
    expect(await refused(path)).toContain('leads out of it or cannot be a file')
  })

  test('a link is refused', async () => {
    expect(await refused(await withEntry('bag/link', { mode: 0o120777 }))).toContain('a link')
  })

  test('a second folder is refused', async () => {
    expect(await refused(await withEntry('other/file'))).toContain('more than one folder')
  })

  test('the same name twice is refused', async () => {
    const path = await withEntry('bag/bagit.tx_')
    patch(path, ['bagit.tx_', 'bagit.txt'])
    expect(await refused(path)).toContain('twice')
  })

  test('names that differ in case alone are refused', async () => {
    expect(await refused(await withEntry('bag/BagIt.txt'))).toContain('cannot tell apart')
  })

  test('a file and a folder of one name are refused', async () => {
    expect(await refused(await withEntry('bag/bagit.txt/a'))).toContain('below a file of the same name')
  })

  test('bytes beyond what the archive claims are not unpacked', async () => {
    const zip = new ZipFile()
    zip.addBuffer(Buffer.alloc(20 * 1024 ** 2), 'bag/bagit.txt')
    zip.end()
    const path = await save(zip.outputStream as Readable, join(emptyFolder(), 'bag.zip'))
    // The size is claimed in the local head and in the directory at the end.
    const claimed = Buffer.alloc(4)
    claimed.writeUInt32LE(20 * 1024 ** 2)
    const smaller = Buffer.alloc(4)
    smaller.writeUInt32LE(40)
    patch(path, [claimed.toString('latin1'), smaller.toString('latin1')])
    expect(await refused(path, { mostFiles: 10, mostBytes: 1_000 })).toContain('bagit.txt is not what it was')
  })

  test('a bag packed without its folder is still a bag', async () => {
    const folder = await folderBag()
    const zip = new ZipFile()
    for (const name of ['bagit.txt', 'bag-info.txt', 'manifest-sha256.txt', 'tagmanifest-sha256.txt'])
      zip.addFile(join(folder, name), name)
    for (const name of ['data/README.txt', 'data/photos/a.jpg']) zip.addFile(join(folder, name), name)
    zip.addEmptyDirectory('data/photos')
    zip.end()
    mkdirSync(join(folder, '..', 'out'))
    const path = await save(zip.outputStream as Readable, join(folder, '..', 'out', 'bag.zip'))
    expect([...(await opened(path)).files.keys()]).toEqual(['README.txt', 'photos/a.jpg'])
  })
})
