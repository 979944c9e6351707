import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { checkDerived } from '../../../db/check-derived.ts'
import { bookingIdSchema, entryIdSchema, type CarId } from '../../../domain/ids.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { taskPlan } from '../../support/plans.ts'
import { taskIdSchema } from '../../../domain/ids.ts'
import { carPayload, manager, metalBay, welder } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
let carId: CarId
const { visit, ...car } = carPayload('Larkspur 4', 'S-101')
const { visitId } = visit
const booked = { bookingId: bookingIdSchema.parse('booking-1'), bayId: metalBay }

beforeEach(async () => {
  host = await createTestHost()
  screen = await host.openScreen()
  await screen.signIn(manager)
  host.workshop.run('addCar', { ...car, visit: { ...visit, status: 'enquired' } })
  carId = car.carId
})
afterEach(() => host.close())

const letGo = (reason: string) =>
  host.workshop.run('setVisitStatus', { visitId, status: 'not taken on', reason }, { carId })
const refused = (reason: string) =>
  host.workshop.refused('setVisitStatus', { visitId, status: 'not taken on', reason }, { carId }).message

describe('an enquiry that came to nothing, or a car that was added by mistake', () => {
  test('is put away with a reason, and stands apart from the cars of the house', async () => {
    expect(refused('')).toBe('A visit that is not taken on has a reason.')
    letGo('Added twice.')
    expect(JSON.stringify(await screen.client.shopFloor.query())).not.toContain(carId)
    expect((await screen.client.cars.query()).cars).toMatchObject([
      { carId, status: 'not taken on', place: 'not taken on', next: 'not taken on' },
    ])
    const record = await screen.client.record.query({ carId })
    expect(record.lines.map(({ words }) => words)).toContain('Visit not taken on: Added twice.')
    expect(checkDerived(host.workshop.db.reader)).toEqual([])
  })

  test('gives back the bays that were booked for it, what is past of them stays', () => {
    host.workshop.run('bookBay', { ...booked, from: '2026-11-23', to: '2026-12-04' }, { carId })
    const later = bookingIdSchema.parse('booking-2')
    host.workshop.run(
      'bookBay',
      { bookingId: later, bayId: metalBay, from: '2026-12-07', to: '2026-12-11' },
      { carId },
    )
    host.workshop.pass({ hours: 24 })
    letGo('The owner went elsewhere.')
    const { bookings } = host.workshop.car(carId)
    expect(bookings.get(booked.bookingId)).toMatchObject({
      from: '2026-11-23',
      to: '2026-11-24',
      cancelled: null,
    })
    expect(bookings.get(later)?.cancelled).not.toBeNull()
    const other = host.workshop.addCar('Teasel', 'S-102')
    const free = {
      bookingId: bookingIdSchema.parse('booking-3'),
      bayId: metalBay,
      from: '2026-11-25',
      to: '2026-12-11',
    }
    host.workshop.run('bookBay', free, { carId: other })
  })

  test('waits for whoever is still at it', () => {
    const taskId = taskIdSchema.parse('task-wash')
    host.workshop.run('addTask', { taskId, plan: taskPlan('Wash') }, { carId })
    const entryId = entryIdSchema.parse('entry-1')
    const on = { kind: 'work' as const, targets: [{ kind: 'task' as const, taskId }] }
    host.workshop.run('startClock', { entryId, personId: welder, on, hotWork: false, cause: null }, { carId })
    expect(refused('Added twice.')).toBe('A clock still runs on this car.')
  })

  test('may be taken up again, or come back in a new visit', () => {
    letGo('Added twice.')
    expect(
      host.workshop.refused('addTask', { taskId: 'task-1' as never, plan: taskPlan('Wash') }, { carId })
        .message,
    ).toBe('The visit is not taken on.')
    host.workshop.run('setVisitStatus', { visitId, status: 'enquired', reason: '' }, { carId })
    letGo('Added twice.')
    host.workshop.run('openVisit', { ...visit, visitId: 'visit-again' as never }, { carId })
    expect(host.workshop.car(carId).currentVisit).toBe('visit-again')
  })

  test('is told to no owner in a week', async () => {
    letGo('The owner went elsewhere.')
    const { reports } = await screen.client.ownerReports.query({ week: '2026-W48' })
    expect(reports).toEqual([])
  })
})
