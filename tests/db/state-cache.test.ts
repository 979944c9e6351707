import { expect, test } from 'vitest'
import { openDatabase } from '../../db/open-database.ts'
import { readFacts } from '../../db/journal.ts'
import {
  eachCar,
  hasRestingCars,
  readAllCars,
  readCar,
  readRestingCars,
  readWorkshop,
} from '../../db/reads.ts'
import { rebuildDerived } from '../../db/rebuild-derived.ts'
import { carIdSchema, visitIdSchema } from '../../domain/ids.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import { createWorkshop, storageBay } from '../support/workshop.ts'

test('a reader beside the host sees every further fact, and what is voided after it has read it', () => {
  const workshop = createWorkshop({ keptIn: 'folder' })
  const carId = workshop.addCar()
  const beside = openDatabase(workshop.dataDir!, { readonly: true })
  const notes = () => readCar(beside, carId)?.notes.map(({ text }) => text)
  const first = workshop.run('addNote', { text: 'One.' }, { carId })
  expect(notes()).toEqual(['One.'])
  workshop.run('addNote', { text: 'Two.' }, { carId })
  workshop.run('addNote', { text: 'Three.' }, { carId })
  expect(notes()).toEqual(['One.', 'Two.', 'Three.'])
  workshop.run('voidFact', { number: first.numbers[0]!, reason: 'Another car.' }, { carId })
  expect(notes()).toEqual(['Two.', 'Three.'])
  expect(readCar(beside, carId)).toEqual(carFromFacts(readFacts(workshop.db, carId)))
  workshop.run('changeBay', {
    bayId: storageBay,
    name: 'Back yard',
    kinds: ['storage'],
    floor: { x: 0, y: 0, width: 60, height: 80 },
    active: true,
  })
  expect(readWorkshop(beside).bays.get(storageBay)?.name).toBe('Back yard')
  beside.close()
  workshop.close()
})

test('a car that nothing has happened to is read from memory, not folded again', () => {
  const workshop = createWorkshop()
  const carId = workshop.addCar('Larkspur 4', 'S-101')
  const before = workshop.car(carId)
  workshop.addCar('Teasel', 'S-102')
  expect(workshop.car(carId)).toBe(before)
  expect(readAllCars(workshop.db)[0]).toBe(before)
  expect(readWorkshop(workshop.db)).toBe(readWorkshop(workshop.db))
})

test('cars come in order of their shell numbers, and there is none by an id that is not known', () => {
  const workshop = createWorkshop()
  workshop.addCar('Teasel', 'S-102')
  workshop.addCar('Larkspur 4', 'S-101')
  expect(readAllCars(workshop.db).map(({ shellNumber }) => shellNumber)).toEqual(['S-101', 'S-102'])
  expect(readCar(workshop.db, carIdSchema.parse('car-s-999'))).toBeNull()
})

test('who looks at every car once keeps none in memory, and sees each as it stood at first', () => {
  const workshop = createWorkshop()
  const names = Array.from({ length: 5 }, (_, number) => `S-10${number}`)
  const ids = names.map((shellNumber) => workshop.addCar('Larkspur 4', shellNumber))
  for (const carId of ids) workshop.run('addNote', { text: 'First.' }, { carId })
  const { cache } = workshop.db
  const known = workshop.car(ids[1]!)
  cache.cars.clear()
  cache.cars.set(ids[1]!, { revision: known.revision, state: known, rests: false })
  const cars = eachCar(workshop.db)
  const seen = [cars.next().value, cars.next().value].map((car) => car?.shellNumber)
  // The one that is in memory already, and one that is not.
  for (const carId of [ids[1]!, ids[3]!]) workshop.run('addNote', { text: 'Later.' }, { carId })
  const rest = [...cars].map((car) => [car.shellNumber, car.notes.map(({ text }) => text)])
  expect([seen, rest]).toEqual([names.slice(0, 2), names.slice(2).map((name) => [name, ['First.']])])
  expect([...cache.cars.keys()].toSorted()).toEqual([ids[1], ids[3]])
  expect([...eachCar(workshop.db)].flatMap(({ notes }) => notes)).toHaveLength(7)
})

test('each connection keeps 4 MiB of the file in memory, whatever its pages come to', () => {
  const workshop = createWorkshop({ keptIn: 'folder' })
  const { reader, writer } = workshop.db
  const sizes = [reader, writer].map(({ sqlite }) => sqlite.pragma('cache_size', { simple: true }))
  workshop.close()
  // Negative: in KiB.
  expect(sizes).toEqual([-4_096, -4_096])
})

test('that a car rests is known without reading any', () => {
  const workshop = createWorkshop()
  const carId = workshop.addCar()
  const visitId = visitIdSchema.parse('visit-s-101')
  expect(hasRestingCars(workshop.db)).toBe(false)
  for (const status of ['finished', 'delivered'] as const)
    workshop.run('setVisitStatus', { visitId, status, reason: '' }, { carId })
  expect(hasRestingCars(workshop.db)).toBe(true)
  workshop.close()
})

test('a car that rests is read anew in short once its row was made anew', () => {
  const workshop = createWorkshop()
  const carId = workshop.addCar()
  const visitId = visitIdSchema.parse('visit-s-101')
  for (const status of ['finished', 'delivered'] as const)
    workshop.run('setVisitStatus', { visitId, status, reason: '' }, { carId })
  const { sqlite } = workshop.db.writer
  sqlite.exec(`UPDATE car SET brief = json_set(brief, '$.header.name', 'Changed by hand')`)
  const names = () => readRestingCars(workshop.db).map(({ header }) => header.name)
  expect(names()).toEqual(['Changed by hand'])
  rebuildDerived(workshop.db)
  expect(names()).toEqual(['Larkspur 4'])
  workshop.close()
})
