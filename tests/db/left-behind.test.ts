import { expect, test } from 'vitest'
import { readWorkshop } from '../../db/reads.ts'
import {
  awayIdSchema,
  bookingIdSchema,
  entryIdSchema,
  taskIdSchema,
  visitIdSchema,
} from '../../domain/ids.ts'
import { taskPlan } from '../support/plans.ts'
import {
  carPayload,
  createWorkshop,
  dippingFirm,
  jigBay,
  metalBay,
  storageBay,
  welder,
} from '../support/workshop.ts'

const [name, shellNumber] = ['Larkspur 4', 'S-101']
const { visitId } = carPayload(name, shellNumber).visit

test('a visit is not finished while a fire watch on its car is not completed', () => {
  const workshop = createWorkshop()
  const carId = workshop.addCar(name, shellNumber)
  const entryId = entryIdSchema.parse('entry-hot')
  const taskId = taskIdSchema.parse('task-bracket')
  workshop.run('addTask', { taskId, plan: taskPlan('Bracket') }, { carId })
  const on = { kind: 'work' as const, targets: [{ kind: 'task' as const, taskId }] }
  workshop.run('startClock', { entryId, personId: welder, on, hotWork: true, cause: null }, { carId })
  workshop.pass({ hours: 1 })
  workshop.run('stopClock', { entryId, overtime: false, shares: null }, { carId })
  workshop.run('markTaskNotNeeded', { taskId, reason: 'Made elsewhere.' }, { carId })
  const finish = { visitId, status: 'finished', reason: '' } as const
  expect(workshop.refused('setVisitStatus', finish, { carId }).message).toBe(
    'A fire watch on this car is not completed.',
  )
  workshop.pass({ hours: 2 })
  workshop.run('completeWatch', { entryId, note: 'Cold.' }, { carId })
  workshop.run('setVisitStatus', finish, { carId })
  expect(workshop.car(carId).visits.get(visitIdSchema.parse(visitId))?.status).toBe('finished')
})

test('a car is not delivered while its shell is away', () => {
  const workshop = createWorkshop()
  const carId = workshop.addCar(name, shellNumber)
  const awayId = awayIdSchema.parse('away-1')
  const sent = { awayId, firmId: dippingFirm, what: 'Dipping', from: '2026-11-23', expected: '2026-11-25' }
  workshop.run('sendAway', sent, { carId })
  workshop.run('setVisitStatus', { visitId, status: 'finished', reason: '' }, { carId })
  const deliver = { visitId, status: 'delivered', reason: '' } as const
  expect(workshop.refused('setVisitStatus', deliver, { carId }).message).toBe('The shell is away.')
  const back = {
    awayId,
    bayId: storageBay,
    fixture: 'wheels' as const,
    tookBack: [],
    uncovered: '',
    reason: 'Stripped.',
  }
  workshop.run('bringBack', back, { carId })
  workshop.run('setVisitStatus', deliver, { carId })
  expect(workshop.car(carId).visits.get(visitIdSchema.parse(visitId))?.status).toBe('delivered')
})

test('a bay is not taken out of use while it is booked from today on', () => {
  const workshop = createWorkshop()
  const carId = workshop.addCar(name, shellNumber)
  const bookingId = bookingIdSchema.parse('booking-1')
  workshop.run('bookBay', { bookingId, bayId: jigBay, from: '2026-11-23', to: '2026-11-23' }, { carId })
  const bay = { name: 'Jig', kinds: ['jig'], floor: { x: 100, y: 0, width: 60, height: 80 }, active: false }
  expect(workshop.refused('changeBay', { ...bay, bayId: jigBay })).toMatchObject({
    message: 'This bay is booked for Larkspur 4, 23 Nov.',
    next: 'Move or cancel the booking on the Plan first, then take the bay out.',
  })
  workshop.run('changeBay', { ...bay, bayId: metalBay })
  workshop.pass({ hours: 24 })
  workshop.run('changeBay', { ...bay, bayId: jigBay })
  expect(readWorkshop(workshop.db).bays.get(jigBay)?.active).toBe(false)
})
