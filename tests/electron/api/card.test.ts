import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { CardAnswer } from '../../../electron/api/card-procedures.ts'
import { attachmentIdSchema, carIdSchema, entryIdSchema, type CarId } from '../../../domain/ids.ts'
import { onGate, repairId } from '../../support/car-builder.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { createTestPhoto } from '../../support/images.ts'
import { addRepair, bringInLarkspur } from '../../support/larkspur.ts'
import { painter, welder } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
let carId: CarId
const fabricating = entryIdSchema.parse('entry-fabricating')

/** On Mon 23 Nov 2026 Ilse fabricates the boot floor of the Larkspur from 10:00 to 11:30, Berlin time. */
beforeAll(async () => {
  host = await createTestHost()
  const { workshop } = host
  carId = bringInLarkspur(workshop)
  addRepair(workshop, carId, 'Boot floor', { passed: 'assessed' })
  workshop.now = Date.parse('2026-11-23T10:00:00+01:00')
  const on = { kind: 'work' as const, targets: [onGate('Boot floor', 'fabricated')] }
  const clock = { entryId: fabricating, personId: welder, on, hotWork: false, cause: null }
  workshop.run('startClock', clock, { carId, by: welder })
  workshop.pass({ hours: 1, minutes: 30 })
  const stop = { entryId: fabricating, overtime: false, shares: null }
  workshop.run('stopClock', stop, { carId, by: welder })
  workshop.pass({ hours: 5 })
  screen = await host.openScreen()
})
afterAll(() => host.close())

async function send(taken?: string, offset?: string): Promise<string> {
  const photo = { width: 320, height: 240, color: '#865', ...(taken ? { taken } : {}) }
  const answer = await screen.upload(await createTestPhoto(offset ? { ...photo, offset } : photo))
  expect(answer.status).toBe(200)
  return ((await answer.json()) as { readonly sha256: string }).sha256
}

type Asked = Parameters<TestScreen['client']['cardProposal']['mutate']>[0]

const ask = (sha256s: readonly string[], more: Partial<Asked> = {}): Promise<CardAnswer> =>
  screen.client.cardProposal.mutate({
    sha256s: [...sha256s],
    carId: null,
    by: null,
    reference: null,
    ...more,
  })

async function propose(sha256s: readonly string[], more?: Partial<Asked>) {
  const answer = await ask(sha256s, more)
  if (!answer.ok) throw new Error(answer.refusal.message)
  return answer.proposal
}

describe('photos from a card', () => {
  test('are matched by the camera date in their EXIF block to the clock that ran', async () => {
    const during = await send('2026:11:23 10:42:07')
    const none = await send()
    const { photos, cars, correction } = await propose([none, during, during])
    expect(correction).toBeNull()
    expect(photos.map(({ sha256 }) => sha256)).toEqual([during, none])
    expect(photos[0]).toMatchObject({
      sure: 'certain',
      takenIso: '2026-11-23T10:42:07+01:00',
      camera: { local: '2026-11-23T10:42:07', offset: null },
      here: [],
      fits: [
        {
          carId,
          target: onGate('Boot floor', 'fabricated'),
          why: 'while Ilse Brandt was clocked on Boot floor, fabricated (10:00 to 11:30)',
        },
      ],
    })
    expect(photos[1]).toMatchObject({ sure: 'none', taken: null, says: 'It carries no camera date.' })
    expect(cars).toMatchObject([{ carId, repairs: [{ id: repairId('Boot floor'), next: 'fabricated' }] }])
  })

  test('of a camera that says its own offset need no zone', async () => {
    const sha256 = await send('2026:11:23 04:42:07', '-05:00')
    expect((await propose([sha256])).photos[0]).toMatchObject({
      sure: 'certain',
      takenIso: '2026-11-23T10:42:07+01:00',
    })
  })

  test('of a camera that is 1 h 4 min slow are put right by one reference photo, and count from then', async () => {
    const [early, clock] = [await send('2026:11:23 09:20:00'), await send('2026:11:23 09:30:12')]
    expect((await propose([early, clock])).photos.map(({ sure }) => sure)).not.toContain('certain')
    const reference = { sha256: clock, date: '2026-11-23', time: '10:34' }
    const { photos, correction } = await propose([early, clock], { reference })
    expect(correction).toBe('The camera’s clock is 1 h 4 min slow.')
    expect(photos).toMatchObject([
      {
        sure: 'certain',
        takenIso: '2026-11-23T10:24:00+01:00',
        camera: { local: '2026-11-23T09:20:00', offset: null },
      },
      { sure: 'certain', takenIso: '2026-11-23T10:34:12+01:00' },
    ])

    await attach(early, photos[0]!.takenIso)
    const { photos: attached } = await screen.client.car.query({ carId })
    expect(attached.find(({ sha256 }) => sha256 === early)).toMatchObject({
      taken: Date.parse('2026-11-23T10:24:00+01:00'),
      cameraDated: true,
    })
  })

  test('are known by their bytes, so that none is sent twice', async () => {
    const sha256 = await send('2026:11:23 10:42:07')
    expect(await screen.client.cardPhotoKnown.query({ sha256 })).toBe(true)
    expect(await screen.client.cardPhotoKnown.query({ sha256: 'f'.repeat(64) })).toBe(false)
  })

  test('that are attached already say where, when and by whom, whatever their file is called', async () => {
    const sha256 = await send('2026:11:23 11:00:00')
    await attach(sha256, '2026-11-23T11:00:00+01:00')
    expect((await propose([sha256])).photos[0]?.here).toEqual([
      {
        carId,
        serves: [{ what: 'gate', ...onFabricated, shows: 'work', layerId: null }],
        at: host.workshop.now,
        by: 'Ilse Brandt',
      },
    ])
  })

  test('of one person’s camera are set beside what that person worked on', async () => {
    const sha256 = await send('2026:11:23 10:42:09')
    expect((await propose([sha256], { by: welder })).photos[0]?.sure).toBe('certain')
    expect((await propose([sha256], { by: painter })).photos[0]?.sure).toBe('none')
  })

  test('may be looked at for one car alone', async () => {
    const { workshop } = host
    const other = workshop.addCar('Ormond 8', 'S-102')
    const sha256 = await send('2026:11:23 10:50:00')
    const { photos, cars } = await propose([sha256], { carId: other })
    expect(photos[0]).toMatchObject({ sure: 'none', fits: [] })
    expect(cars.map((car) => car.carId)).toEqual([other])
    const unknown = await refusalOf(ask([sha256], { carId: carIdSchema.parse('car-nowhere') }))
    expect(unknown.next).toBe('Choose it from the list of cars.')
  })

  test('cannot be put right by a photo without a date or by a time to come', async () => {
    const [none, dated] = [await send(), await send('2026:11:23 10:42:07')]
    expect(
      await ask([none], { reference: { sha256: none, date: '2026-11-23', time: '10:00' } }),
    ).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input', next: 'Choose another photo of the same camera.' },
    })
    expect(
      await ask([dated], { reference: { sha256: dated, date: '2027-01-01', time: '10:00' } }),
    ).toMatchObject({
      ok: false,
      refusal: { message: 'The time that was given is still to come.' },
    })
    const reference = { sha256: dated, date: '2026-11-23', time: '25:00' }
    expect((await refusalOf(ask([dated], { reference }))).message).toBe('Give a time like 14:32.')
  })
})

const onFabricated = { repairId: repairId('Boot floor'), gate: 'fabricated' } as const

async function attach(sha256: string, taken: string | null): Promise<void> {
  await screen.run(
    'attachPhoto',
    {
      attachmentId: attachmentIdSchema.parse(`photo-${sha256.slice(0, 12)}`),
      sha256,
      taken,
      caption: '',
      serves: [{ what: 'gate', ...onFabricated, shows: 'work', layerId: null }],
    },
    { carId, by: welder },
  )
}
