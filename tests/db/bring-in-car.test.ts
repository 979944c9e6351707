import { afterEach, describe, expect, test } from 'vitest'
import { readCameChain } from '../../db/came-chain.ts'
import { checkDerived } from '../../db/check-derived.ts'
import { checkJournal } from '../../db/check-journal.ts'
import { readFinishedRepairs } from '../../db/finished-repairs.ts'
import { readFacts } from '../../db/journal.ts'
import { readVariance } from '../../db/stored-variance.ts'
import { recordPhoto } from '../../db/photo-rows.ts'
import { readWorkshop } from '../../db/reads.ts'
import { readOwnerReports } from '../../electron/api/owner-reports-view.ts'
import {
  entryIdSchema,
  lineIdSchema,
  repairIdSchema,
  taskIdSchema,
  variationIdSchema,
  visitIdSchema,
  type CarId,
} from '../../domain/ids.ts'
import { takeOver } from '../../domain/bring-in/take-over.ts'
import { fact, FACT_VERSION } from '../../domain/facts.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import { carView } from '../../domain/views/car-view.ts'
import { recordView } from '../../domain/views/record-view.ts'
import { dateToIsoWeek } from '../../domain/time/iso-week.ts'
import { createViewContext } from '../../domain/views/view-context.ts'
import { carWork } from '../../domain/views/car-line.ts'
import { bringIn, carJournal } from '../support/came-car.ts'
import { finishRepair } from '../support/finish-repair.ts'
import { repairPlan, taskPlan } from '../support/plans.ts'
import { recordEveryKind } from './every-kind.ts'
import { createWorkshop, metalBay, owner, welder, type Workshop } from '../support/workshop.ts'

const opened: Workshop[] = []
const workshop = (): Workshop => {
  const fresh = createWorkshop()
  opened.push(fresh)
  return fresh
}

afterEach(() => {
  for (const each of opened.splice(0)) each.close()
})

const sill = repairIdSchema.parse('repair-sill')
const arch = repairIdSchema.parse('repair-arch')
const strip = taskIdSchema.parse('task-strip')
const clock = entryIdSchema.parse('entry-clock')

/** A car with a finished arch of 12 hours, an opened sill, an open task, a question to the owner and a running clock. */
function carThere(): { readonly there: Workshop; readonly carId: CarId } {
  const there = workshop()
  const carId = there.addCar()
  there.addRepair(carId, arch, repairPlan('Arch'))
  there.addRepair(carId, sill, repairPlan('Sill'))
  finishRepair(there, carId, arch, 12)
  there.run('markNotNeeded', { repairId: sill, gate: 'opened', reason: 'Open already.' }, { carId })
  there.run('addTask', { taskId: strip, plan: taskPlan('Strip the shell') }, { carId })
  there.run('moveShell', { bayId: metalBay, fixture: 'stands', note: '' }, { carId })
  ask(there, carId)
  there.run(
    'startClock',
    {
      entryId: clock,
      personId: welder,
      on: { kind: 'work', targets: [{ kind: 'gate', repairId: arch, gate: 'painted' }] },
      hotWork: false,
      cause: 'workmanship',
    },
    { carId, by: welder },
  )
  return { there, carId }
}

function ask(there: Workshop, carId: CarId): void {
  const target = { kind: 'gate' as const, repairId: sill, gate: 'fabricated' as const }
  there.run(
    'raiseVariation',
    {
      variationId: variationIdSchema.parse('variation-sill'),
      visitId: visitIdSchema.parse('visit-s-101'),
      payer: 'owner',
      title: 'Inner sill',
      why: 'It is gone.',
      ifNot: '',
      findings: [],
      attachments: [],
      lines: [{ target, low: 2, hours: 3, high: 5 }],
      costs: [],
    },
    { carId },
  )
}

const onSill = {
  kind: 'work' as const,
  targets: [{ kind: 'gate' as const, repairId: sill, gate: 'fabricated' as const }],
}

const inputOf = (here: Workshop) => ({
  now: here.now,
  workshop: readWorkshop(here.db),
  nameOf: () => 'somebody',
})

const estimateLine = (id: string, hours: number) => ({
  lineId: lineIdSchema.parse(id),
  target: onSill.targets[0]!,
  hours: { shortest: hours, likely: hours, longest: hours },
  agreed: hours,
  payer: 'owner' as const,
})

/** Person-hours in the table of the Variance screen. */
const spentIn = ({ db }: Workshop) =>
  db.writer.sqlite.prepare(`SELECT sum(spent) FROM variance_sum WHERE grouped_by = 'gate'`).pluck().get()

const visitHere = visitIdSchema.parse('visit-here')

function openVisit(here: Workshop, carId: CarId): void {
  here.run(
    'openVisit',
    {
      visitId: visitHere,
      kind: 'agreed',
      ownerId: owner,
      insurerId: null,
      status: 'in work',
      promised: null,
      priority: 1,
      charge: { by: 'hour' },
    },
    { carId },
  )
}

describe('a car of another workshop', () => {
  test('is nobody’s work and stands nowhere until a visit is opened here', () => {
    const { there, carId } = carThere()
    const here = workshop()
    bringIn(there.db, carId, here.db, { now: here.now })
    const car = here.car(carId)
    expect(car.standing).toBeNull()
    expect(car.variations.size).toBe(0)
    expect(car.entries.has(clock)).toBe(false)
    expect(carWork(car, createViewContext(inputOf(here)))).toEqual([])
    const start = { entryId: clock, personId: welder, on: onSill, hotWork: false, cause: null }
    expect(here.refusalCode('startClock', start, { carId, by: welder })).toBe('not-now')
  })

  test('goes on here with what was open, in a visit of its own', () => {
    const { there, carId } = carThere()
    const here = workshop()
    bringIn(there.db, carId, here.db, { now: here.now })
    openVisit(here, carId)
    const car = here.car(carId)
    expect(car.repairs.get(sill)?.visitId).toBe(visitHere)
    expect(car.repairs.get(arch)?.visitId).toBe('visit-s-101')
    expect(car.tasks.get(strip)?.visitId).toBe(visitHere)
    const items = carWork(car, createViewContext(inputOf(here)))
    expect(items.map(({ name, done }) => `${name} ${done}`)).toEqual([
      'Sill assessed',
      'Strip the shell done',
    ])
    const lines = [estimateLine('sill-line', 6)]
    here.run('setEstimate', { visitId: visitHere, lines }, { carId })
    const answer = { payer: 'owner' as const, how: 'letter' as const, note: '' }
    const lineIds = lines.map(({ lineId }) => lineId)
    here.run('acceptEstimate', { visitId: visitHere, ...answer, lineIds, costIds: [] }, { carId })
    finishRepair(here, carId, sill, 5)
    const sums = [...readVariance(here.db.writer).values()].flatMap((each) => Object.values(each))
    expect(JSON.stringify(sums)).not.toContain('visit-s-101')
    expect(spentIn(here)).toBe(5)
    expect(checkDerived(here.db.reader)).toEqual([])
  })

  test('teaches this workshop nothing of hours, whether it was finished there or here', () => {
    const { there, carId } = carThere()
    expect(readFinishedRepairs(there.db).map(({ repairId }) => repairId)).toEqual([arch])
    const here = workshop()
    bringIn(there.db, carId, here.db, { now: here.now })
    openVisit(here, carId)
    here.run('setEstimate', { visitId: visitHere, lines: [estimateLine('sill-line', 6)] }, { carId })
    finishRepair(here, carId, sill, 5)
    expect(readFinishedRepairs(here.db)).toEqual([])
  })

  test('is told to its owner from the first visit here on', () => {
    const { there, carId } = carThere()
    const here = workshop()
    bringIn(there.db, carId, here.db, { now: here.now })
    const week = dateToIsoWeek('2026-11-25')
    const visits = () => readOwnerReports(here.db, week).reports.map(({ visitId }) => visitId)
    expect(visits()).toEqual([])
    openVisit(here, carId)
    expect(visits()).toEqual([visitHere])
  })

  test('keeps what was recorded there as it was recorded: no void, no correction of hours', () => {
    const { there, carId } = carThere()
    const here = workshop()
    bringIn(there.db, carId, here.db, { now: here.now })
    openVisit(here, carId)
    const facts = readFacts(here.db, carId)
    const logged = facts.find(({ kind }) => kind === 'timeLogged')
    const voided = here.refused('voidFact', { number: logged!.number, reason: 'No.' }, { carId })
    expect(voided.message).toBe('This was recorded in another workshop and stays as it came.')
    const [entry] = here.car(carId).entries.values()
    const corrected = {
      entryId: entryIdSchema.parse('entry-corrected'),
      replaces: entry!.id,
      personId: welder,
      on: onSill,
      cause: null,
      time: { kind: 'day' as const, date: '2026-11-20', hours: 1 },
      shares: null,
      reason: 'No.',
    }
    expect(here.refused('correctTime', corrected, { carId }).message).toBe(
      'These hours were worked in another workshop and stay as they came.',
    )
  })

  test('may go on to a third workshop, which takes over what both recorded', () => {
    const { there, carId } = carThere()
    const here = workshop()
    bringIn(there.db, carId, here.db, { now: here.now })
    openVisit(here, carId)
    here.run('addNote', { text: 'It came on a trailer.' }, { carId })
    const third = workshop()
    bringIn(here.db, carId, third.db, { now: third.now, from: 'Third Street' })
    const car = third.car(carId)
    expect([...car.visits.values()].map(({ from }) => from)).toEqual(['Fen Lane Bodies', 'Third Street'])
    expect(car.notes.map(({ text }) => text)).toEqual(['It came on a trailer.'])
    expect(car.broughtIn?.from).toBe('Third Street')
    expect(checkJournal(third.db.reader)).toEqual([])
  })

  test('keeps a void on the fact that it voids, and leaves out one of a fact that stays behind', () => {
    const { there, carId } = carThere()
    there.run('addNote', { text: 'Wrong car.' }, { carId })
    const note = readFacts(there.db, carId).findLast(({ kind }) => kind === 'noted')!
    there.run('voidFact', { number: note.number, reason: 'It was another.' }, { carId })
    const here = workshop()
    bringIn(there.db, carId, here.db, { now: here.now })
    expect(here.car(carId).notes).toEqual([])
    const facts = readFacts(here.db, carId)
    const voids = facts.flatMap((each) => (each.kind === 'factVoided' ? [each.payload.number] : []))
    expect(voids.map((number) => facts.find((each) => each.number === number)?.kind)).toEqual(['noted'])
  })

  test('is shown whatever kind of fact its file is without', () => {
    const there = workshop()
    const carId = recordEveryKind(there, photosOf(there), 'd'.repeat(64), 'e'.repeat(64))
    const facts = readFacts(there.db, carId)
    const kinds = [...new Set(facts.map(({ kind }) => kind))].filter((kind) => kind !== 'carAdded')
    const { hash: head, lines } = readWhole(there, carId)
    for (const kind of kinds) {
      const { facts: taken } = takeOver(facts.filter((each) => each.kind !== kind))
      const said = {
        from: 'Fen Lane Bodies',
        head,
        lines,
        withheld: 0,
        leftOut: 0,
        journal: head,
        manifest: head,
      }
      const closing = { ...facts.at(-1)!, ...fact('carBroughtIn', said), number: facts.at(-1)!.number + 1 }
      const whole = [...taken, closing]
      const car = carFromFacts(whole)!
      expect(carView({ ...inputOf(there), car }).header.cameFrom, kind).toBe(
        kind === 'visitOpened' ? null : 'Fen Lane Bodies',
      )
      const record = recordView({ ...inputOf(there), facts: whole, head, showsMoney: true })
      expect(record.lines).toHaveLength(whole.length)
    }
  })
})

/** Three photos that are known, though nobody looks at them. */
const photosOf = ({ db, now }: Workshop): readonly string[] => {
  const facts = { type: 'jpeg', width: 60, height: 40, orientation: 1, taken: null } as const
  return ['a', 'b', 'c'].map(
    (letter) => recordPhoto(db, { sha256: letter.repeat(64), byteCount: 9, facts }, now).sha256,
  )
}

const readWhole = ({ db }: Workshop, carId: CarId) => {
  const chain = readCameChain(carJournal(db, carId), FACT_VERSION)
  if (!chain.ok) throw new Error(chain.refusal.message)
  return chain.value
}
