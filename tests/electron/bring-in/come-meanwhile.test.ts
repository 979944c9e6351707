import { createReadStream, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { cameFilesFolder } from '../../../db/data-paths.ts'
import type { PhotoStore } from '../../../db/photos/photo-store.ts'
import { commandIdSchema, deviceIdSchema } from '../../../domain/ids.ts'
import { openBringInDesk } from '../../../electron/bring-in/bring-in-desk.ts'
import { EVERYTHING } from '../../support/came-car.ts'
import { archiveOf, createReceiver, refusalOf, sure } from '../../support/came-file.ts'
import { carWithEveryKind } from '../../support/car-file.ts'
import { desk as device, manager } from '../../support/workshop.ts'

test('a file that has come whole while another one is brought in is let go, and the first one stays readable', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'came-file-'))
  onTestFinished(() => rmSync(folder, { recursive: true }))
  const filed = await carWithEveryKind()
  const full = await archiveOf(filed.workshop, filed.carId, EVERYTHING, folder)
  const here = await createReceiver()
  here.workshop.now = filed.workshop.now
  filed.workshop.close()
  const { db, dataDir } = here.workshop
  const gate = Promise.withResolvers<void>()
  const photos: PhotoStore = {
    ...here.photos,
    add: async (source) => {
      await gate.promise
      return here.photos.add(source)
    },
  }
  const makeSizes = async () => ({ ok: true as const, value: true as const })
  const desk = await openBringInDesk({
    db,
    photos,
    makeSizes,
    now: () => here.workshop.now,
    log: expect.unreachable,
  })
  const { fileId } = sure(await desk.receive(createReadStream(full)))
  const begun: ReturnType<typeof desk.bringIn>[] = []
  async function* whileBroughtIn() {
    yield* createReadStream(full)
    const commandId = commandIdSchema.parse('bring-in-1')
    begun.push(
      desk.bringIn({
        fileId,
        commandId,
        shellNumber: null,
        by: manager,
        device: deviceIdSchema.parse(device),
      }),
    )
  }
  expect(refusalOf(await desk.receive(whileBroughtIn())).message).toContain('Another car is being brought in')
  gate.resolve()
  const [brought] = await Promise.all(begun)
  sure(brought!)
  expect(readdirSync(cameFilesFolder(dataDir ?? ''))).toEqual([`${fileId}.zip`])
  await desk.close()
  await here.close()
})
