import { createReadStream, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { toWeb } from '../../../db/photos/to-web.ts'

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
})
