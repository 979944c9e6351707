import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { inspectPhoto } from '../../../db/photos/inspect-photo.ts'
import { openPhotoStore, type PhotoStore } from '../../../db/photos/photo-store.ts'

let folder: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-kills-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

async function openStore(): Promise<PhotoStore> {
  const store = await openPhotoStore(folder, { inspect: inspectPhoto })
  if (!store.ok) throw new Error(store.problem.message)
  return store.value
}

const incoming = () => readdir(join(folder, 'incoming'))

describe('a killed photo store', () => {
  it('keeps every photo that was answered with success over random kills', { timeout: 60_000 }, async () => {
    const answered: string[] = []
    for (let round = 0; round < 6; round++) {
      answered.push(...(await sendUntilKilled(round * 1000, 1 + round * 3, (round * 7) % 20)))
      const store = await openStore()
      expect(await incoming()).toEqual([])
      for (const sha256 of answered) expect(await store.verify(sha256)).toMatchObject({ ok: true })
      const listed = await store.list()
      if (!listed.ok) throw new Error(listed.problem.message)
      for (const sha256 of listed.value) expect(await store.verify(sha256)).toMatchObject({ ok: true })
    }
    expect(answered.length).toBeGreaterThanOrEqual(1 + 4 + 7 + 10 + 13 + 16)
  })
})

/** Runs a sender, kills it some milliseconds after so many answers, and gives what it was answered with success. */
async function sendUntilKilled(
  firstNumber: number,
  answers: number,
  milliseconds: number,
): Promise<readonly string[]> {
  const script = fileURLToPath(new URL('../../support/photo-sender.ts', import.meta.url))
  const sender = spawn(process.execPath, [script, folder, String(firstNumber)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const exited = once(sender, 'exit')
  const answered: string[] = []
  for await (const line of createInterface(sender.stdout)) {
    if (/^[0-9a-f]{64}$/.test(line)) answered.push(line)
    if (answered.length === answers) setTimeout(() => sender.kill('SIGKILL'), milliseconds)
  }
  const [, signal] = (await exited) as [number | null, string | null]
  expect(signal).toBe('SIGKILL')
  return answered
}
