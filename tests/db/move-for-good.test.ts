import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { makeBelow } from '../../db/move-for-good.ts'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'panelwright-below-'))
})
afterAll(() => rmSync(folder, { recursive: true }))

describe('makeBelow', () => {
  it('makes every folder on the way, and again does no harm', async () => {
    const deepest = join(folder, 'ab', 'cd')
    await makeBelow(folder, deepest)
    await makeBelow(folder, deepest)
    expect(existsSync(deepest)).toBe(true)
  })

  it('begins nothing in the place of a top that is away', async () => {
    const away = join(folder, 'away')
    await expect(makeBelow(away, join(away, 'ab'))).rejects.toMatchObject({ code: 'ENOENT' })
    expect(existsSync(away)).toBe(false)
  })
})
