import { describe, expect, test } from 'vitest'
import { executeCommand, executeCommands } from '../../db/execute-command.ts'
import { contactBook } from '../../db/contacts.ts'
import { chainHead, lastNumber, readFacts } from '../../db/journal.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import { workshopFromFacts } from '../../domain/state/workshop-state.ts'
import {
  carIdSchema,
  entryIdSchema,
  partyIdSchema,
  repairIdSchema,
  reportIdSchema,
  visitIdSchema,
} from '../../domain/ids.ts'
import { repairPlan } from '../support/plans.ts'
import {
  carPayload,
  createWorkshop,
  jigBay,
  manager,
  owner,
  storageBay,
  tablet,
  welder,
} from '../support/workshop.ts'

const note = (text: string) => ({ text })
const somebody = { name: 'Somebody', phone: '', email: '' as const, address: '' }
const sweeping = { kind: 'workshop' as const, what: 'Sweeping' }

describe('an accepted command', () => {
  test('is answered with the numbers of its facts, which the car then shows', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const before = lastNumber(workshop.db)
    const answer = workshop.run('addNote', note('Keys are in the office.'), { carId })
    expect(answer).toEqual({ ok: true, revision: before + 1, numbers: [before + 1], carId })
    expect(workshop.car(carId)).toMatchObject({
      revision: before + 1,
      notes: [{ text: 'Keys are in the office.', stamp: { number: before + 1, by: manager } }],
    })
  })

  test('leaves all its facts in order, with who, what device and when', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const repairId = repairIdSchema.parse('repair-boot-floor')
    const repair = { repairId, type: null, plan: repairPlan('Boot floor'), payer: 'owner' as const }
    const answer = workshop.run(
      'addRepair',
      { ...repair, covers: [], coveredBy: [] },
      { carId, device: tablet, happened: '2026-11-23T07:30:00+01:00' },
    )
    const facts = readFacts(workshop.db, carId).filter((fact) => answer.numbers.includes(fact.number))
    expect(facts.map(({ kind }) => kind)).toEqual(['repairAdded', 'estimateSet'])
    for (const fact of facts)
      expect(fact).toMatchObject({
        version: 3,
        carId,
        by: manager,
        device: tablet,
        happened: '2026-11-23T07:30:00+01:00',
        made: '2026-11-23T07:00:00.000Z',
        recorded: '2026-11-23T07:00:00.000Z',
      })
  })

  test('that states no time has happened now, in the time of the workshop', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    workshop.run('addNote', note('Now.'), { carId })
    expect(readFacts(workshop.db, carId).at(-1)?.happened).toBe('2026-11-23T08:00:00+01:00')
  })

  test('belongs to the visit that is going on, and one that opens a visit to the new one', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const first = visitIdSchema.parse('visit-s-101')
    const second = visitIdSchema.parse('visit-second')
    for (const status of ['finished', 'delivered'] as const)
      workshop.run('setVisitStatus', { visitId: first, status, reason: '' }, { carId })
    const agreement = { promised: null, priority: 1, charge: { by: 'hour' as const } }
    workshop.run(
      'openVisit',
      { visitId: second, kind: 'agreed', ownerId: owner, insurerId: null, status: 'agreed', ...agreement },
      { carId },
    )
    workshop.run('addNote', note('Back again.'), { carId })
    expect(readFacts(workshop.db, carId).map(({ kind, visitId }) => [kind, visitId])).toEqual([
      ['carAdded', null],
      ['visitOpened', first],
      ['visitStatusSet', first],
      ['visitStatusSet', first],
      ['visitOpened', second],
      ['noted', second],
    ])
  })

  test('on the workshop itself goes into the chain of the workshop', () => {
    const workshop = createWorkshop()
    const before = readFacts(workshop.db, null).length
    workshop.run('startClock', {
      entryId: entryIdSchema.parse('entry-sweeping'),
      personId: welder,
      on: sweeping,
      hotWork: false,
      cause: null,
    })
    const facts = readFacts(workshop.db, null)
    expect(facts).toHaveLength(before + 1)
    expect(facts.at(-1)).toMatchObject({ kind: 'clockStarted', carId: null, visitId: null })
    expect([...readWorkshop(workshop.db).entries.keys()]).toEqual(['entry-sweeping'])
  })

  test('writes names into the contact book and never into the journal', () => {
    const workshop = createWorkshop()
    expect(contactBook(workshop.db).nameOf(welder)).toBe('Ilse Brandt')
    expect(contactBook(workshop.db).nameOf('person-nobody')).toBe('somebody')
    const payloads = workshop.db.writer.sqlite.prepare('SELECT json FROM payload').pluck().all()
    expect(payloads.join('\n')).not.toMatch(/Brandt|2718/)
    workshop.run('changeContact', {
      id: welder,
      contact: { name: 'Ilse Brandt-Moor', phone: '', email: '', address: '' },
    })
    expect(contactBook(workshop.db).nameOf(welder)).toBe('Ilse Brandt-Moor')
  })

  test('is taken into the car at once, so that the state in memory is what a fresh fold gives', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const first = workshop.run('addNote', note('One.'), { carId })
    workshop.car(carId)
    workshop.run('addNote', note('Two.'), { carId })
    workshop.run('voidFact', { number: first.numbers[0]!, reason: 'Not this car.' }, { carId })
    workshop.run('addNote', note('Three.'), { carId })
    expect(workshop.car(carId).notes.map(({ text }) => text)).toEqual(['Two.', 'Three.'])
    expect(workshop.car(carId)).toEqual(carFromFacts(readFacts(workshop.db, carId)))
  })
})

describe('a repeated command', () => {
  test('gets its first answer and records nothing', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const first = workshop.run('addNote', note('Once.'), { carId, id: 'command-once' })
    workshop.run('addNote', note('In between.'), { carId })
    expect(workshop.send('addNote', note('Once.'), { carId, id: 'command-once' })).toEqual(first)
    expect(workshop.car(carId).notes).toHaveLength(2)
  })

  test('is known after the host was started again', () => {
    const workshop = createWorkshop({ keptIn: 'folder' })
    const carId = workshop.addCar()
    const first = workshop.run('addNote', note('Once.'), { carId, id: 'command-once' })
    workshop.restart()
    expect(workshop.send('addNote', note('Once.'), { carId, id: 'command-once' })).toEqual(first)
    workshop.close()
  })

  test('is refused when its content, its car, its kind or its person is another', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar('Larkspur 4', 'S-101')
    const other = workshop.addCar('Teasel', 'S-102')
    const id = 'command-once'
    workshop.run('addNote', note('Once.'), { carId, id })
    const revision = lastNumber(workshop.db)
    const refusal = (options: object, text = 'Once.') =>
      workshop.refusalCode('addNote', note(text), { carId, id, ...options })
    expect(refusal({}, 'Twice.')).toBe('same-id-other-content')
    expect(refusal({ carId: other })).toBe('same-id-other-content')
    expect(refusal({ by: welder })).toBe('same-id-other-content')
    expect(workshop.refusalCode('setSafety', { item: 'fuel', stands: true, note: '' }, { carId, id })).toBe(
      'same-id-other-content',
    )
    expect(lastNumber(workshop.db)).toBe(revision)
  })

  test('that was refused is judged again', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const move = { bayId: jigBay, fixture: 'jig', note: '' } as const
    const other = workshop.addCar('Teasel', 'S-102')
    workshop.run('moveShell', move, { carId: other })
    expect(workshop.refusalCode('moveShell', move, { carId, id: 'command-move' })).toBe('clash')
    workshop.run('moveShell', { ...move, bayId: storageBay }, { carId: other })
    expect(workshop.send('moveShell', move, { carId, id: 'command-move' }).ok).toBe(true)
  })
})

describe('an edit that was made on an older state', () => {
  test('is refused, so that nobody overwrites what another has just changed', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const seen = workshop.car(carId).revision
    const car = { shellNumber: 'S-101', body: 'tourer', year: 1962 } as const
    workshop.run('changeCar', { ...car, name: 'Larkspur Four' }, { carId, seen })
    const mine = { ...car, name: 'Larkspur IV' }
    expect(workshop.refusalCode('changeCar', mine, { carId, seen })).toBe('changed-meanwhile')
    expect(workshop.car(carId).name).toBe('Larkspur Four')
    workshop.run('changeCar', mine, { carId, seen: workshop.car(carId).revision })
    expect(workshop.car(carId).name).toBe('Larkspur IV')
  })

  test('is judged by its own car, whatever happens on others', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar('Larkspur 4', 'S-101')
    const seen = workshop.car(carId).revision
    workshop.addCar('Teasel', 'S-102')
    expect(workshop.send('addNote', note('Fine.'), { carId, seen }).ok).toBe(true)
  })

  test('of the workshop is judged by the workshop', () => {
    const workshop = createWorkshop()
    const seen = readWorkshop(workshop.db).revision
    const holiday = (name: string) => ({
      week: [[], [], [], [], [], [], []],
      holidays: [{ date: '2026-12-25', name }],
    })
    workshop.run('setCalendar', holiday('Christmas'), { seen })
    expect(workshop.refusalCode('setCalendar', holiday('Holiday'), { seen })).toBe('changed-meanwhile')
  })
})

describe('several commands at once', () => {
  test('take back the link of the chains too when one after a report is refused', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const report = {
      reportId: reportIdSchema.parse('report-week-48'),
      visitId: visitIdSchema.parse('visit-s-101'),
      week: '2026-W48',
      sha256: 'ab'.repeat(32),
      head: chainHead(workshop.db, carId),
      words: '',
      page: null,
      photos: [],
      crops: [],
      names: false,
      dates: 'range' as const,
      language: 'en' as const,
      title: 'Week 48',
    }
    const commands = [
      workshop.command('issueReport', report, { carId }),
      workshop.command('addNote', note(''), { carId }),
    ]
    const requests = commands.map((command) => ({ command, device: null, second: null, now: workshop.now }))
    expect(executeCommands(workshop.db, requests)).toMatchObject({ ok: false, index: 1 })
    workshop.run('addParty', { partyId: partyIdSchema.parse('party-new'), kind: 'owner', contact: somebody })
    workshop.run('addNote', note('Goes on.'), { carId })
    expect(readWorkshop(workshop.db)).toEqual(workshopFromFacts(readFacts(workshop.db, null)))
    expect([...readWorkshop(workshop.db).parties.keys()]).toContain('party-new')
  })

  test('are all recorded, each decided on what those before it added', () => {
    const workshop = createWorkshop()
    const requests = [
      workshop.command('addCar', carPayload('Teasel', 'S-201')),
      workshop.command('addNote', note('By post.'), { carId: carIdSchema.parse('car-s-201') }),
    ].map((command) => ({ command, device: null, second: null, now: workshop.now }))
    const answer = executeCommands(workshop.db, requests)
    expect(answer.ok && answer.answers.map(({ numbers }) => numbers.length)).toEqual([2, 1])
    expect(readAllCars(workshop.db).map(({ notes }) => notes.length)).toEqual([1])
  })

  test('leave nothing at all when one of them is refused, which is named', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar('Larkspur 4', 'S-101')
    const revision = lastNumber(workshop.db)
    const commands = [
      workshop.command('addNote', note('First.'), { carId, id: 'command-first' }),
      workshop.command('addCar', carPayload('Teasel', 'S-201')),
      workshop.command('addCar', carPayload('Teasel', 'S-101')),
      workshop.command('addNote', note('Never.'), { carId }),
    ]
    const requests = commands.map((command) => ({ command, device: null, second: null, now: workshop.now }))
    expect(executeCommands(workshop.db, requests)).toMatchObject({
      ok: false,
      index: 2,
      refusal: { code: 'already' },
    })
    expect(lastNumber(workshop.db)).toBe(revision)
    expect(readAllCars(workshop.db).map(({ id }) => id)).toEqual([carId])
    expect(workshop.car(carId).notes).toEqual([])
    // Nothing of them is remembered either: each is judged again.
    expect(executeCommand(workshop.db, requests[0]!).ok).toBe(true)
    expect(workshop.car(carId).notes.map(({ text }) => text)).toEqual(['First.'])
  })
})
