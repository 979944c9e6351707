import { describe, expect, test } from 'vitest'
import { recordPhoto } from '../../db/photo-rows.ts'
import {
  attachmentIdSchema,
  bookingIdSchema,
  carIdSchema,
  entryIdSchema,
  repairIdSchema,
  type CarId,
} from '../../domain/ids.ts'
import { repairPlan } from '../support/plans.ts'
import { carPayload, createWorkshop, jigBay, manager, welder, type Workshop } from '../support/workshop.ts'

describe('what is decided from other cars', () => {
  test('a shell number that another car has is refused with its name', () => {
    const workshop = createWorkshop()
    workshop.addCar('Larkspur 4', 'S-101')
    const payload = { ...carPayload('Teasel', 'S-101'), carId: carIdSchema.parse('car-teasel') }
    expect(workshop.refused('addCar', payload).message).toBe('Shell number S-101 is taken by Larkspur 4.')
    const other = workshop.addCar('Teasel', 'S-102')
    const refusal = workshop.refused(
      'changeCar',
      { shellNumber: 'S-101', name: 'Teasel', body: 'van', year: null },
      { carId: other },
    )
    expect(refusal).toMatchObject({ code: 'already', message: 'Shell number S-101 is taken by Larkspur 4.' })
  })

  test('a bay that is booked by another car is refused with who and when, until that is cancelled', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar('Larkspur 4', 'S-101')
    const other = workshop.addCar('Teasel', 'S-102')
    const bookingId = bookingIdSchema.parse('booking-first')
    const dates = { bayId: jigBay, from: '2026-11-23', to: '2026-12-04' }
    workshop.run('bookBay', { bookingId, ...dates }, { carId })
    const second = {
      bookingId: bookingIdSchema.parse('booking-second'),
      ...dates,
      from: '2026-12-04',
      to: '2026-12-05',
    }
    expect(workshop.refused('bookBay', second, { carId: other })).toMatchObject({
      code: 'clash',
      message: expect.stringContaining('Larkspur 4 is in Jig'),
    })
    workshop.run('cancelBooking', { bookingId, reason: '' }, { carId })
    expect(workshop.send('bookBay', second, { carId: other }).ok).toBe(true)
  })

  test('a bay in which another shell stands is refused', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar('Larkspur 4', 'S-101')
    const other = workshop.addCar('Teasel', 'S-102')
    const move = { bayId: jigBay, fixture: 'jig', note: '' } as const
    workshop.run('moveShell', move, { carId })
    expect(workshop.refused('moveShell', move, { carId: other })).toMatchObject({
      code: 'clash',
      message: 'Larkspur 4 stands in Jig.',
    })
    // In the same bay on something else: a car is not in its own way.
    expect(workshop.send('moveShell', { ...move, fixture: 'rotisserie' }, { carId }).ok).toBe(true)
  })

  test('time of one person may not overlap their time on another car, however long ago', () => {
    const workshop = createWorkshop()
    const carId = withRepair(workshop, 'S-101')
    const other = withRepair(workshop, 'S-102')
    const log = (name: string, from: string, to: string, personId = welder) => ({
      entryId: entryIdSchema.parse(`entry-${name}`),
      personId,
      on: onRepair,
      hotWork: false,
      cause: null,
      time: { kind: 'span' as const, start: `2026-02-${from}:00+01:00`, end: `2026-02-${to}:00+01:00` },
      shares: null,
      note: '',
    })
    workshop.run('logTime', log('first', '10T08:00', '10T12:00'), { carId })
    expect(workshop.refusalCode('logTime', log('second', '10T11:00', '10T13:00'), { carId: other })).toBe(
      'overlap',
    )
    workshop.run('logTime', log('second', '10T12:00', '10T13:00'), { carId: other })
    workshop.run('logTime', log('third', '10T11:00', '10T13:00', manager), { carId: other })
  })

  test('a day of one person has 24 hours over all cars and the workshop', () => {
    const workshop = createWorkshop()
    const carId = withRepair(workshop, 'S-101')
    const day = (hours: number) => ({ kind: 'day' as const, date: '2026-11-20', hours })
    const usual = { personId: welder, hotWork: false, cause: null, shares: null, note: '' }
    workshop.run(
      'logTime',
      { ...usual, entryId: entryIdSchema.parse('entry-car'), on: onRepair, time: day(13) },
      { carId },
    )
    const rest = { ...usual, entryId: entryIdSchema.parse('entry-shop'), on: sweeping }
    expect(workshop.refusalCode('logTime', { ...rest, time: day(11.5) })).toBe('absurd-hours')
    workshop.run('logTime', { ...rest, time: day(11) })
  })

  test('one person has one clock running, and a clock forgotten for days is still found', () => {
    const workshop = createWorkshop()
    const carId = withRepair(workshop, 'S-101')
    const clock = { personId: welder, hotWork: false, cause: null }
    const entryId = entryIdSchema.parse('entry-forgotten')
    workshop.run('startClock', { ...clock, entryId, on: onRepair }, { carId })
    workshop.pass({ hours: 24 * 9 })
    const second = { ...clock, entryId: entryIdSchema.parse('entry-second'), on: sweeping }
    expect(workshop.refusalCode('startClock', second)).toBe('overlap')
    workshop.run('stopClock', { entryId, overtime: false, shares: null }, { carId })
    expect(workshop.send('startClock', second).ok).toBe(true)
  })

  test('a photo that has not been received cannot be attached', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const sha256 = 'ab'.repeat(32)
    const photo = {
      attachmentId: attachmentIdSchema.parse('attachment-first'),
      sha256,
      taken: null,
      caption: '',
      serves: [{ what: 'car' as const }],
    }
    expect(workshop.refusalCode('attachPhoto', photo, { carId })).toBe('photo')
    const facts = { type: 'jpeg', width: 60, height: 40, orientation: 1, taken: null } as const
    recordPhoto(workshop.db, { sha256, byteCount: 1234, facts }, workshop.now)
    expect(workshop.send('attachPhoto', photo, { carId }).ok).toBe(true)
  })
})

const repairId = repairIdSchema.parse('repair-boot-floor')
const onRepair = {
  kind: 'work' as const,
  targets: [{ kind: 'gate' as const, repairId, gate: 'opened' as const }],
}
const sweeping = { kind: 'workshop' as const, what: 'Sweeping' }

function withRepair(workshop: Workshop, shellNumber: string): CarId {
  const carId = workshop.addCar('Larkspur 4', shellNumber)
  workshop.addRepair(carId, repairId, repairPlan('Boot floor'))
  return carId
}
