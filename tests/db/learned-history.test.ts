import fc from 'fast-check'
import { expect, test } from 'vitest'
import { executeCommands } from '../../db/execute-command.ts'
import { readEstimateHistory, readFinishedRepairs } from '../../db/finished-repairs.ts'
import { readFacts } from '../../db/journal.ts'
import { rehearseCommands } from '../../db/rehearse-commands.ts'
import { createStateCache } from '../../db/state-cache.ts'
import { GRADES } from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import { typeIdSchema, visitIdSchema, type CarId } from '../../domain/ids.ts'
import { repairId } from '../support/car-builder.ts'
import { finishRepair } from '../support/finish-repair.ts'
import { addRepair } from '../support/larkspur.ts'
import { repairPlan } from '../support/plans.ts'
import { toldBy } from '../support/told-by.ts'
import { createWorkshop, desk, type Workshop } from '../support/workshop.ts'
import { createEstimateHistory } from '../support/estimate-history.ts'

const TYPES = ['sill', 'arch'].map((name) => typeIdSchema.parse(`type-${name}`))
const NAMES = ['One', 'Two', 'Three', 'Four']

interface Chosen {
  readonly carId: CarId
  readonly name: string
  readonly hours: number
}

type Act = (workshop: Workshop, chosen: Chosen) => void

const acts: Readonly<Record<string, Act>> = {
  finishes: (workshop, { carId, name, hours }) => {
    if (workshop.car(carId).repairs.get(repairId(name))?.retired !== null) return
    finishRepair(workshop, carId, repairId(name), hours)
  },
  reopens: (workshop, { carId, name }) => {
    const reopened = { repairId: repairId(name), gate: 'welded', cause: 'fit', reason: 'Cracked.' } as const
    workshop.send('reopenGate', reopened, { carId })
  },
  'voids the last gate': (workshop, { carId }) => {
    const last = readFacts(workshop.db, carId).findLast(({ kind }) => kind === 'gateNotNeeded')
    if (last !== undefined)
      workshop.send('voidFact', { number: last.number, reason: 'The wrong repair.' }, { carId })
  },
  'grades the outside': (workshop, { carId, name, hours }) => {
    const grade = GRADES[hours % GRADES.length]!
    workshop.send('gradeOutside', { repairId: repairId(name), grade, note: '' }, { carId })
  },
  'gives up': (workshop, { carId, name }) => {
    workshop.send('retireRepair', { repairId: repairId(name), reason: 'The metal is sound.' }, { carId })
  },
  'finishes within what is refused': (workshop, { carId, name }) => {
    const commands = [...finishing(workshop, carId, name), acceptNothing(workshop, carId)]
    expect(executeCommands(workshop.db, requests(workshop, commands)).ok).toBe(false)
  },
  'finishes within a rehearsal': (workshop, { carId, name }) => {
    rehearseCommands(workshop.db, requests(workshop, finishing(workshop, carId, name)))
  },
}

const finishing = (workshop: Workshop, carId: CarId, name: string) =>
  GATES.map((gate) =>
    workshop.command('markNotNeeded', { repairId: repairId(name), gate, reason: 'Sound.' }, { carId }),
  )

/** Asks what finished repairs tell inside its transaction, and is refused. */
const acceptNothing = (workshop: Workshop, carId: CarId) => {
  const visitId = visitIdSchema.parse(workshop.car(carId).currentVisit)
  return workshop.command(
    'acceptEstimate',
    { visitId, payer: 'owner', lineIds: [], costIds: [], how: 'call', note: '' },
    { carId },
  )
}

const requests = (workshop: Workshop, commands: readonly ReturnType<Workshop['command']>[]) =>
  commands.map((command) => ({ command, device: desk, second: null, now: workshop.now }))

test('What is learned as repairs are finished, reopened and voided is to the last digit what a new start would learn', () => {
  const steps = fc.array(
    fc.record({
      act: fc.constantFrom('finishes', 'finishes', ...Object.keys(acts)),
      car: fc.nat({ max: 1 }),
      name: fc.constantFrom(...NAMES),
      hours: fc.integer({ min: 1, max: 30 }),
    }),
    { minLength: 14, maxLength: 14 },
  )
  fc.assert(
    fc.property(steps, (story) => {
      const workshop = createWorkshop({ keptIn: 'folder' })
      try {
        for (const typeId of TYPES) workshop.run('saveType', { typeId, plan: repairPlan('Of its type') })
        const cars = [workshop.addCar('Larkspur 4', 'S-101'), workshop.addCar('Teasel', 'S-102')]
        for (const [at, name] of NAMES.entries())
          for (const carId of cars) {
            const typeId = TYPES[at % 3]
            addRepair(workshop, carId, name, { type: typeId === undefined ? null : { typeId, version: 1 } })
          }
        for (const { act, car, name, hours } of story) {
          acts[act]!(workshop, { carId: cars[car]!, name, hours })
          expectLearnedAnew(workshop)
        }
      } finally {
        workshop.close()
      }
    }),
    { numRuns: 2, endOnFailure: true },
  )
})

function expectLearnedAnew({ db }: Workshop): void {
  const told = readEstimateHistory(db)
  const repairs = readFinishedRepairs({ ...db, cache: createStateCache() })
  expect(readFinishedRepairs(db)).toEqual(repairs)
  const types = [...TYPES, null]
  expect(toldBy(told, types, ['inner panel'])).toEqual(
    toldBy(createEstimateHistory(repairs), types, ['inner panel']),
  )
}
