import { expect } from 'vitest'
import type { CarId } from '../../domain/ids.ts'
import { entryIdSchema } from '../../domain/ids.ts'
import { choosePerson, dialog, type PhotoFile } from '../support/at-screen.ts'
import { violations } from '../support/axe.ts'
import { browserTest } from '../support/browser.ts'
import { onGate } from '../support/car-builder.ts'
import { createTestPhoto } from '../support/images.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { cutNetwork, serve } from '../support/served.ts'
import { painter, welder, type Workshop } from '../support/workshop.ts'

/** On Mon 23 Nov Ilse fabricates the boot floor from 10:00 to 11:30; Tomasz opens the left sill from 11:00 to 12:00. */
function twoClocks(workshop: Workshop): void {
  const carId = bringInLarkspur(workshop)
  addRepair(workshop, carId, 'Boot floor', { passed: 'assessed' })
  addRepair(workshop, carId, 'Left sill')
  const at = (time: string) => {
    workshop.now = Date.parse(`2026-11-23T${time}:00+01:00`)
  }
  at('10:00')
  startClock(workshop, carId, ['entry-floor', welder], onGate('Boot floor', 'fabricated'))
  at('11:00')
  startClock(workshop, carId, ['entry-sill', painter], onGate('Left sill', 'opened'))
  at('11:30')
  stopClock(workshop, carId, ['entry-floor', welder])
  at('12:00')
  stopClock(workshop, carId, ['entry-sill', painter])
  at('14:00')
}

type Clock = readonly [id: string, person: typeof welder]

function startClock(workshop: Workshop, carId: CarId, [id, by]: Clock, on: ReturnType<typeof onGate>): void {
  const clock = { entryId: entryIdSchema.parse(id), personId: by, hotWork: false, cause: null }
  workshop.run('startClock', { ...clock, on: { kind: 'work', targets: [on] } }, { carId, by })
}

function stopClock(workshop: Workshop, carId: CarId, [id, by]: Clock): void {
  const stop = { entryId: entryIdSchema.parse(id), overtime: false, shares: null }
  workshop.run('stopClock', stop, { carId, by })
}

/** A photo of a camera that is 64 minutes slow. */
async function slowPhoto(name: string, taken: string): Promise<PhotoFile> {
  const shown = new Date(Date.parse(`2026-11-23T${taken}Z`) - 64 * 60_000).toISOString().slice(0, 19)
  const exif = shown.replace('T', ' ').replaceAll('-', ':')
  const buffer = await createTestPhoto({ width: 320, height: 240, color: '#865', taken: exif })
  return { name, mimeType: 'image/jpeg', buffer }
}

browserTest(
  'photos from a card of a slow camera are put right by one of them, chosen, and attached though the host is away',
  async () => {
    const served = await serve({ before: twoClocks })
    const tolerates = [...cutNetwork, /status of 4\d\d/]
    const { page, context } = await served.open({ size: 'tablet', at: '/cars', tolerates })
    await choosePerson(page, 'Ilse Brandt')
    await page.getByRole('link', { name: 'Photos from a card' }).click()
    await page.getByText('nothing is attached before you say so').waitFor()

    const floor = await slowPhoto('floor.jpg', '10:20:00')
    const files = [
      floor,
      { ...floor, name: 'the same again.jpg' },
      await slowPhoto('clock.jpg', '10:50:20'),
      await slowPhoto('both.jpg', '11:15:00'),
      { name: 'notes.txt', mimeType: 'text/plain', buffer: Buffer.from('a list') },
      { name: 'cut.jpg', mimeType: 'image/jpeg', buffer: floor.buffer.subarray(0, 900) },
    ]
    await page.getByLabel('Photos one by one').setInputFiles(files)
    await page.getByText('2 files left out').waitFor()
    await page.getByText('1 more file with the same picture').waitFor()

    await page.getByRole('button', { name: 'the clock is off' }).click()
    const clock = dialog(page, 'Put the camera’s clock right')
    await clock.getByRole('radio', { name: '09:46:20' }).check()
    await clock.getByLabel('Time').fill('10:50')
    await clock.getByText('The camera’s clock is 1 h 4 min slow.').waitFor()
    await clock.getByRole('button', { name: 'Move all photos' }).click()
    await clock.waitFor({ state: 'detached' })
    const why = 'while Ilse Brandt was clocked on Boot floor, fabricated (10:00 to 11:30)'
    await page.getByRole('region', { name: 'Larkspur 4' }).getByText(why).first().waitFor()
    expect(await violations(page)).toEqual([])

    // Both were clocked on at 11:15: the person says whose work it shows.
    await page.getByRole('button', { name: 'Attach 1 photo', exact: true }).waitFor()
    await page.getByRole('button', { name: 'Larkspur 4, Left sill: opened' }).click()
    await context.setOffline(true)
    await page.getByRole('button', { name: 'Attach 2 photos' }).click()
    await page.getByText('2 photos are attached as soon as the host can be reached').waitFor()
    await context.setOffline(false)
    await page.getByRole('link', { name: 'Photos of Larkspur 4' }).click()
    await page.getByRole('heading', { name: 'Photos 2' }).waitFor()
    await page.getByRole('link', { name: 'Record' }).click()
    await page.getByText('2 photos came from a camera card. The camera’s clock is 1 h 4 min slow.').waitFor()

    // The same card again: known by its bytes, whatever the file is called.
    await page.getByRole('link', { name: 'Photos 2' }).click()
    await page.getByRole('link', { name: 'Photos from a card' }).click()
    await page.getByLabel('Photos one by one').setInputFiles([{ ...floor, name: 'DSC_9.jpg' }])
    await page.getByText('Here already since').waitFor()
    await page.getByRole('button', { name: 'Nothing to attach yet', disabled: true }).waitFor()
  },
)
