import { createReadStream, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { open as openFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { setImmediate as turn } from 'node:timers/promises'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { toWeb } from '../../db/to-web.ts'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'panelwright-to-web-'))
  writeFileSync(join(folder, 'bytes'), Buffer.alloc(500_000, 7))
})
afterAll(() => rmSync(folder, { recursive: true }))

const open = () => createReadStream(join(folder, 'bytes'), { highWaterMark: 4_000 })

describe('a stream as the web has it', () => {
  it('gives every byte', async () => {
    const bytes = await new Response(toWeb(open())).bytes()
    expect(bytes.byteLength).toBe(500_000)
    expect(bytes.every((byte) => byte === 7)).toBe(true)
  })

  it('destroys its source where it is given up, whatever is on its way then', async () => {
    for (let turns = 0; turns < 40; turns += 1) {
      const source = open()
      const reader = toWeb(source).getReader()
      await reader.read()
      for (let turn = 0; turn < turns % 4; turn += 1) await new Promise((go) => void setImmediate(go))
      void reader.read()
      await reader.cancel()
      expect(source.destroyed).toBe(true)
    }
  })

  it('closes the file of a source that is given up before anyone reads', async () => {
    const file = await openFile(join(folder, 'bytes'))
    await toWeb(file.createReadStream()).cancel()
    // A file that is closed has this descriptor.
    await vi.waitFor(() => expect(file.fd).toBe(-1))
  })

  it('tells its reader of an error that came before', async () => {
    const source = new Readable({ read() {} })
    const reader = toWeb(source).getReader()
    source.destroy(new Error('EIO'))
    await turn()
    await expect(reader.read()).rejects.toThrow('EIO')
  })
})
