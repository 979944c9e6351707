import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Transform } from 'node:stream'
import { expect, onTestFinished, test } from 'vitest'
import { writeWrapped } from '../../../electron/copies/wrapped-file.ts'
import { AS_IT_IS, type Wrapping } from '../../../electron/copies/wrapping.ts'

test('a disk that gives back something else than it was given is said to be failing, and nothing of it is left', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-wrapped-'))
  onTestFinished(() => rmSync(folder, { recursive: true }))
  const from = join(folder, 'original')
  writeFileSync(from, 'what is copied')
  const zeros = () =>
    new Transform({ transform: (chunk: Buffer, _encoding, done) => done(null, Buffer.alloc(chunk.length)) })
  const wrapping: Wrapping = { ...AS_IT_IS, unwrap: () => [zeros()] }
  const { signal } = new AbortController()
  await expect(
    writeWrapped(from, join(folder, 'copy'), { wrapping, sha256: null, signal }),
  ).rejects.toMatchObject({
    refusal: { code: 'storage', next: expect.stringContaining('choose a folder on another disk') },
  })
  expect(readdirSync(folder)).toEqual(['original'])
})
