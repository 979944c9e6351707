import { beforeEach, describe, expect, test } from 'vitest'
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import { GATES, type Gate } from '../../domain/gates.ts'
import {
  repairIdSchema,
  taskIdSchema,
  variationIdSchema,
  visitIdSchema,
  type CarId,
} from '../../domain/ids.ts'
import { targetKey } from '../../domain/value/target.ts'
import { repairPlan, taskPlan } from '../support/plans.ts'
import { createWorkshop, manager, painter, welder, type Workshop } from '../support/workshop.ts'
import { sure } from '../support/varied.ts'

const floor = repairIdSchema.parse('repair-floor')
const wash = taskIdSchema.parse('task-wash')
const visitId = visitIdSchema.parse('visit-s-101')
const onGate = (gate: Gate) => ({ kind: 'gate' as const, repairId: floor, gate })
const onTask = { kind: 'task' as const, taskId: wash }
const fabricated = onGate('fabricated')

let workshop: Workshop
let carId: CarId

/** Monday, 23 November 2026, 08:00; a floor whose gates take one person of metalwork skill, welded two, and a task. */
beforeEach(() => {
  workshop = createWorkshop()
  carId = workshop.addCar()
  const plan = repairPlan('Floor', { gates: { welded: { people: 2 } } })
  const links = { covers: [], coveredBy: [] }
  workshop.run('addRepair', { repairId: floor, type: null, plan, payer: 'workshop', ...links }, { carId })
  workshop.run('addTask', { taskId: wash, plan: taskPlan('Wash', { payer: 'workshop' }) }, { carId })
})

const car = () => workshop.car(carId)
const pin = (over: Partial<CommandPayload<'pinWork'>> = {}) =>
  workshop.send('pinWork', { target: fabricated, people: [welder], day: null, ...over }, { carId })
const refusedPin = (over: Partial<CommandPayload<'pinWork'>>) =>
  workshop.refused('pinWork', { target: fabricated, people: [welder], day: null, ...over }, { carId })
const pinned = () => [...car().pins.values()].map(({ people, day }) => ({ people, day }))
const sayLeft = (hours: number, target: CommandPayload<'sayLeft'>['target'] = fabricated) =>
  workshop.run('sayLeft', { target, hours }, { carId, by: welder })
const left = () => [...car().left].map(([key, { hours }]) => [key, hours])
const pass = (gate: Gate) =>
  workshop.run('passGate', { repairIds: [floor], gate, did: [welder], coat: null, note: '' }, { carId })
const notNeeded = (gate: Gate) =>
  workshop.run('markNotNeeded', { repairId: floor, gate, reason: 'nothing there' }, { carId })
const reopen = (gate: Gate) =>
  workshop.run('reopenGate', { repairId: floor, gate, cause: 'fit', reason: 'too short' }, { carId })

describe('a pin', () => {
  test('stands with its people and its day, and a later one on the same work takes its place', () => {
    pin({ day: '2026-11-26' })
    expect(pinned()).toEqual([{ people: [welder], day: '2026-11-26' }])
    pin({ people: [], day: '2026-11-27' })
    expect(pinned()).toEqual([{ people: [], day: '2026-11-27' }])
  })

  test('may be on work of a part on the bench, on a task and on today', () => {
    workshop.addRepair(carId, repairIdSchema.parse('repair-wing'), repairPlan('Wing', { on: 'part' }))
    const onBench = {
      kind: 'gate' as const,
      repairId: repairIdSchema.parse('repair-wing'),
      gate: 'welded' as const,
    }
    expect(pin({ target: onBench }).ok).toBe(true)
    expect(pin({ target: onTask, people: [painter], day: '2026-11-23' }).ok).toBe(true)
  })

  test('is taken off, once', () => {
    pin()
    workshop.run('unpinWork', { target: fabricated }, { carId })
    expect(pinned()).toEqual([])
    expect(workshop.refused('unpinWork', { target: fabricated }, { carId }).message).toBe(
      'This work is not pinned.',
    )
  })

  test('ends when its work is done, not needed or signed', () => {
    for (const gate of ['opened', 'assessed', 'fabricated'] as const) pin({ target: onGate(gate) })
    pin({ target: onTask, people: [painter] })
    notNeeded('opened')
    notNeeded('assessed')
    pass('fabricated')
    expect([...car().pins.keys()]).toEqual([wash])
    workshop.run('signTask', { taskId: wash, did: [painter], note: '' }, { carId })
    expect(pinned()).toEqual([])
  })

  test('ends with its repair', () => {
    pin()
    workshop.run('retireRepair', { repairId: floor, reason: 'sound' }, { carId })
    expect(pinned()).toEqual([])
    expect(refusedPin({}).message).toBe('Floor was retired.')
  })

  test('is there again when what ended it is voided', () => {
    pin({ target: onGate('opened') })
    const { numbers } = notNeeded('opened')
    workshop.run('voidFact', { number: numbers[0]!, reason: 'other car' }, { carId })
    expect([...car().pins.keys()]).toEqual([targetKey(onGate('opened'))])
  })

  test('does not come back with a gate that is reopened', () => {
    pin({ target: onGate('opened') })
    notNeeded('opened')
    reopen('opened')
    expect(pinned()).toEqual([])
  })

  test.each<[string, Partial<CommandPayload<'pinWork'>>, string]>([
    ['nothing', { people: [] }, 'This pins nothing.'],
    [
      'a gate of a repair that is not known',
      { target: { ...fabricated, repairId: repairIdSchema.parse('repair-none') } },
      'This repair is not known.',
    ],
    [
      'a task that is not known',
      { target: { kind: 'task', taskId: taskIdSchema.parse('task-none') } },
      'This task is not known.',
    ],
    ['more people than the gate takes', { people: [welder, manager] }, 'Floor: fabricated takes 1 person.'],
    [
      'more people than a gate for two takes',
      { target: onGate('welded'), people: [welder, manager, painter] },
      'Floor: welded takes 2 people.',
    ],
    ['one person twice', { target: onGate('welded'), people: [welder, welder] }, 'Somebody is named twice.'],
    [
      'a person without the skill',
      { target: onTask, people: [welder] },
      "Somebody named here has not the skill 'paint' that 'Wash' asks for.",
    ],
    ['a day that has gone', { day: '2026-11-22' }, 'This day is in the past.'],
  ])('to %s is refused', (_name, over, message) => {
    expect(refusedPin(over).message).toBe(message)
    expect(pinned()).toEqual([])
  })

  test('to somebody who has left is refused', () => {
    workshop.run('changePerson', {
      personId: welder,
      roles: ['technician'],
      skills: ['metalwork'],
      week: null,
      absences: [],
      active: false,
      contact: { name: 'Ilse Brandt', phone: '', email: '', address: '' },
    })
    expect(refusedPin({}).message).toBe('Somebody named here does not work in the workshop.')
  })

  test('on a gate or task that is done, or on a car that is finished, is refused', () => {
    pass('opened')
    expect(refusedPin({ target: onGate('opened') }).message).toBe('Floor: opened is done already.')
    workshop.run('markTaskNotNeeded', { taskId: wash, reason: 'clean' }, { carId })
    expect(refusedPin({ target: onTask }).message).toBe("'Wash' is not needed.")
    for (const gate of GATES.slice(1)) notNeeded(gate)
    workshop.run('setVisitStatus', { visitId, status: 'finished', reason: '' }, { carId })
    expect(refusedPin({}).message).toBe('The visit is finished.')
  })

  test('by a technician is refused', () => {
    const payload = { target: fabricated, people: [welder], day: null }
    expect(workshop.refusalCode('pinWork', payload, { carId, by: welder })).toBe('not-allowed')
  })
})

describe('what is said to be still to do', () => {
  test('stands for a gate and a task, in the words of whoever does it, and is said anew', () => {
    sayLeft(3)
    sayLeft(1.5)
    sayLeft(2, onTask)
    expect(left()).toEqual([
      [targetKey(fabricated), 1.5],
      [wash, 2],
    ])
    expect(car().left.get(targetKey(fabricated))?.stamp.by).toBe(welder)
  })

  test('may be nothing but the signature, and no less', () => {
    sayLeft(0)
    expect(left()).toEqual([[targetKey(fabricated), 0]])
    const negative = workshop.refused('sayLeft', { target: fabricated, hours: -1 }, { carId })
    expect(negative.message).toBe('Hours cannot be negative. (hours)')
  })

  test('ends with the gate, and with a reopening of it or of one before it', () => {
    sayLeft(3, onGate('opened'))
    pass('opened')
    expect(left()).toEqual([])
    sayLeft(2, onGate('fabricated'))
    sayLeft(4, onTask)
    reopen('opened')
    expect(left()).toEqual([[wash, 4]])
  })

  test('ends on the gates whose hours a split or a merge moves', () => {
    const part = repairIdSchema.parse('repair-corner')
    sayLeft(3)
    const plan = repairPlan('Corner')
    workshop.run(
      'splitRepair',
      { repairId: floor, newRepairId: part, plan, share: 0.5, reason: 'two' },
      { carId },
    )
    expect(left()).toEqual([])
    sayLeft(1)
    workshop.run('mergeRepairs', { repairId: part, into: floor, reason: 'one after all' }, { carId })
    expect(left()).toEqual([])
  })

  test('is refused on work that is done and while the visit is not in work', () => {
    pass('opened')
    const target = onGate('opened')
    expect(workshop.refused('sayLeft', { target, hours: 1 }, { carId }).message).toBe(
      'Floor: opened is done already.',
    )
    workshop.run('setVisitStatus', { visitId, status: 'paused', reason: '' }, { carId })
    expect(workshop.refused('sayLeft', { target: fabricated, hours: 1 }, { carId })).toMatchObject({
      message: 'The visit is paused.',
      next: 'Set it in work first.',
    })
  })

  test('is forgotten when it is voided', () => {
    sayLeft(3)
    const { numbers } = sayLeft(30)
    workshop.run('voidFact', { number: numbers[0]!, reason: 'a slip of the pen' }, { carId })
    expect(left()).toEqual([[targetKey(fabricated), 3]])
  })
})

describe('an answer that is expected', () => {
  const variationId = variationIdSchema.parse('variation-lid')
  const expectOn = (expected: string) => workshop.send('expectDecision', { variationId, expected }, { carId })
  const raise = () =>
    workshop.run(
      'raiseVariation',
      {
        variationId,
        visitId,
        payer: 'owner',
        title: 'A new lid',
        why: 'bent',
        ifNot: '',
        findings: [],
        attachments: [],
        lines: [sure(fabricated, 4)],
        costs: [],
      },
      { carId },
    )

  test('has its date on the variation, and the date may be moved', () => {
    raise()
    expect(car().variations.get(variationId)?.expected).toBeNull()
    for (const date of ['2026-12-01', '2026-12-04']) expect(expectOn(date).ok).toBe(true)
    expect(car().variations.get(variationId)?.expected).toBe('2026-12-04')
  })

  test('is refused for what is not known, is decided, or lies in the past', () => {
    const refusal = (expected = '2026-12-01') =>
      workshop.refused('expectDecision', { variationId, expected }, { carId }).message
    expect(refusal()).toBe('This variation is not known.')
    raise()
    expect(refusal('2026-11-22')).toBe('This day is in the past.')
    workshop.run(
      'decideVariation',
      { variationId, decision: 'accepted', changed: null, how: 'call', note: '' },
      { carId },
    )
    expect(refusal()).toBe("'A new lid' is accepted already.")
  })

  test('is no reason to keep a variation that is voided', () => {
    const { numbers } = raise()
    expectOn('2026-12-01')
    workshop.run('voidFact', { number: numbers[0]!, reason: 'the other car' }, { carId })
    expect(car().variations.size).toBe(0)
  })
})
