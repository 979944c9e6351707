import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { archiveOf, createReceiver, forged, refusalOf } from '../../support/came-file.ts'
import { EVERYTHING } from '../../support/came-car.ts'
import { carWithEveryKind } from '../../support/car-file.ts'

test('a file whose workshop lies in no time zone is refused before a day is told by it', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'came-file-'))
  onTestFinished(() => rmSync(folder, { recursive: true }))
  const filed = await carWithEveryKind()
  const full = await archiveOf(filed.workshop, filed.carId, EVERYTHING, folder)
  filed.workshop.close()
  const here = await createReceiver()
  const nowhere = await forged(full, folder, 'workshop.json', (text) =>
    text.replace(/"zone": "[^"]+"/, '"zone": "EUR"'),
  )
  expect(refusalOf(await here.receive(nowhere)).message).toContain('do not belong together')
  await here.close()
})
