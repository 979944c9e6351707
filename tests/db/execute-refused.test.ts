import { describe, expect, test } from 'vitest'
import { checkDerived } from '../../db/check-derived.ts'
import { lastNumber, readFacts } from '../../db/journal.ts'
import { readCar } from '../../db/reads.ts'
import { bookingIdSchema, carIdSchema, entryIdSchema, visitIdSchema } from '../../domain/ids.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import { carPayload, createWorkshop, storageBay, welder } from '../support/workshop.ts'

const note = (text: string) => ({ text })
const sweeping = { kind: 'workshop' as const, what: 'Sweeping' }

describe('ids that screens make', () => {
  test('one that another car uses already is refused, and the state in memory stays right', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar('Larkspur 4', 'S-101')
    const other = workshop.addCar('Teasel', 'S-102')
    const bookingId = bookingIdSchema.parse('booking-same')
    const dates = { bookingId, bayId: storageBay, from: '2026-11-23', to: '2026-12-04' }
    workshop.run('bookBay', dates, { carId })
    const revision = lastNumber(workshop.db)
    expect(workshop.refusalCode('bookBay', dates, { carId: other })).toBe('already')
    expect(lastNumber(workshop.db)).toBe(revision)
    expect(workshop.car(other).bookings.size).toBe(0)
    workshop.run('addNote', note('Goes on.'), { carId: other })
    expect(workshop.car(other)).toEqual(carFromFacts(readFacts(workshop.db, other)))
  })

  test('a car cannot be added twice, nor into the chain of another', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar('Larkspur 4', 'S-101')
    const again = { ...carPayload('Teasel', 'S-102'), carId }
    expect(workshop.refusalCode('addCar', again)).toBe('already')
    expect(workshop.refusalCode('addCar', again, { carId })).toBe('already')
    expect(workshop.run('addCar', carPayload('Teasel', 'S-103'), { carId }).carId).toBe('car-s-103')
    expect(readFacts(workshop.db, carId).map(({ kind }) => kind)).toEqual(['carAdded', 'visitOpened'])
  })

  test('a visit whose id a visit of another car has is refused, and the other keeps its figures', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar('Larkspur 4', 'S-101')
    const { visit } = carPayload('Larkspur 4', 'S-101')
    expect(workshop.refusalCode('addCar', { ...carPayload('Teasel', 'S-102'), visit })).toBe('already')
    const other = workshop.addCar('Teasel', 'S-103')
    const first = { visitId: visitIdSchema.parse('visit-s-103'), reason: '' }
    for (const status of ['finished', 'delivered'] as const)
      workshop.run('setVisitStatus', { ...first, status }, { carId: other })
    expect(workshop.refusalCode('openVisit', visit, { carId: other })).toBe('already')
    expect(workshop.car(carId).visits.size).toBe(1)
    expect(workshop.car(other).visits.size).toBe(1)
    const own = { ...visit, visitId: visitIdSchema.parse('visit-s-104') }
    expect(workshop.run('openVisit', own, { carId: other }).numbers).toHaveLength(1)
    expect(checkDerived(workshop.db.reader)).toEqual([])
  })

  test('nothing is recorded for a car that does not exist', () => {
    const workshop = createWorkshop()
    const carId = carIdSchema.parse('car-nowhere')
    expect(workshop.refusalCode('addNote', note('Hello?'), { carId })).toBe('unknown')
    const usual = { personId: welder, hotWork: false, cause: null, shares: null, note: '' }
    const logged = {
      ...usual,
      entryId: entryIdSchema.parse('entry-nowhere'),
      on: sweeping,
      time: { kind: 'day' as const, date: '2026-11-20', hours: 1 },
    }
    expect(workshop.refusalCode('logTime', logged, { carId })).toBe('unknown')
    expect(readCar(workshop.db, carId)).toBeNull()
  })

  test("the workshop's own facts do not go into the chain of a car", () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const week = { week: [[], [], [], [], [], [], []], holidays: [] }
    expect(workshop.refusalCode('setCalendar', week, { carId })).toBe('bad-input')
  })
})

describe('a disk that fails', () => {
  test('a full disk refuses the command with what to do, and nothing that was there is lost', () => {
    const workshop = createWorkshop({ keptIn: 'folder' })
    const carId = workshop.addCar()
    const { sqlite } = workshop.db.writer
    // A database that may not grow gives the same SQLITE_FULL as a disk without room.
    const pages = sqlite.pragma('page_count', { simple: true }) as number
    sqlite.pragma(`max_page_count = ${pages}`)
    const long = note('The whole story. '.repeat(500))
    let refused = 0
    for (let each = 0; each < 12; each += 1) {
      const answer = workshop.send('addNote', long, { carId })
      if (answer.ok) continue
      refused += 1
      expect(answer.refusal).toMatchObject({ code: 'storage', next: expect.stringContaining('Make room') })
    }
    expect(refused).toBeGreaterThan(0)
    const kept = workshop.car(carId).notes.length
    expect(kept).toBe(12 - refused)
    sqlite.pragma('max_page_count = 1000000')
    workshop.run('addNote', long, { carId })
    workshop.restart()
    expect(workshop.car(carId).notes).toHaveLength(kept + 1)
    workshop.close()
  })
})

describe('recorded time', () => {
  test('never runs backwards when the clock of the host is put back', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    workshop.run('addNote', note('At eight.'), { carId })
    workshop.pass({ hours: -3 })
    workshop.run('addNote', note('At five?'), { carId })
    workshop.pass({ hours: 3, minutes: 1 })
    workshop.run('addNote', note('A minute past eight.'), { carId })
    expect(
      readFacts(workshop.db, carId)
        .slice(-3)
        .map(({ recorded }) => recorded),
    ).toEqual(['2026-11-23T07:00:00.000Z', '2026-11-23T07:00:00.000Z', '2026-11-23T07:01:00.000Z'])
  })
})
