import { describe, expect, test } from 'vitest'
import type { CommandPayload } from '../../../domain/commands/command-shapes.ts'
import { commandSchema, commandShapes } from '../../../domain/commands/command-shapes.ts'
import { planImport, type ImportKind } from '../../../domain/import/plan-import.ts'
import { importContext } from '../../support/import-context.ts'

const plan = (kind: ImportKind, ...lines: readonly string[]) => {
  const planned = planImport(kind, lines.join('\n'), importContext())
  if (!planned.ok) throw new Error(planned.refusal.message)
  return planned.value
}
const problems = (kind: ImportKind, ...lines: readonly string[]) =>
  plan(kind, ...lines).lines.flatMap((line) => line.problems)
const refusal = (kind: ImportKind, ...lines: readonly string[]) => {
  const planned = planImport(kind, lines.join('\n'), importContext())
  return planned.ok ? null : planned.refusal
}
const payloads = <K extends keyof typeof commandShapes>(kind: K, planned: ReturnType<typeof plan>) =>
  planned.commands
    .filter(({ command }) => command.kind === kind)
    .map(({ command }) => commandShapes[kind].parse(command.payload) as CommandPayload<K>)

describe('the columns', () => {
  test('may come in any order and case, and those that may be left out may be left out', () => {
    expect(problems('cars', 'Owner;BODY;Name;Shell Number', 'Ada Fell;van;Corran 5;21/A')).toEqual([])
  })

  test('that are missing, unknown or there twice are all named, with those that are wanted', () => {
    const refused = refusal('cars', 'shell number,name,name,colour', '1,2,3,4')
    expect(refused?.message).toContain("missing 'body', 'owner'")
    expect(refused?.message).toContain("unknown 'colour'")
    expect(refused?.message).toContain("there twice 'name'")
    expect(refused?.next).toContain('shell number, name, body, year (may be left out)')
  })

  test('without a line below them are refused', () => {
    expect(refusal('cars', 'shell number,name,body,owner')?.message).toContain(
      'only the line of column names',
    )
  })

  test('are not shifted by a line with too many cells', () => {
    const [problem] = problems('cars', 'shell number,name,body,owner', '21,Corran, big,van,Ada Fell')
    expect(problem).toMatchObject({ line: 2, column: null })
  })
})

describe('cars', () => {
  const header = 'shell number;name;body;year;owner;phone;email;promised;priority;status;charge'

  test('become an owner and a car with its visit', () => {
    const planned = plan(
      'cars',
      header,
      '21/A;Corran 5;van;1961;Ada Fell;555 01;ada@fell.example;18.12.2026;soon;agreed;capped 120',
    )
    expect(planned.lines).toEqual([{ line: 2, summary: '21/A Corran 5, van, for Ada Fell', problems: [] }])
    const [party] = payloads('addParty', planned)
    const [car] = payloads('addCar', planned)
    expect(party).toMatchObject({ kind: 'owner', contact: { name: 'Ada Fell', phone: '555 01' } })
    expect(car).toMatchObject({ shellNumber: '21/A', year: 1961, photo: null })
    expect(car?.visit).toMatchObject({
      ownerId: party?.partyId,
      promised: '2026-12-18',
      priority: 2,
      charge: { by: 'capped', capHours: 120 },
    })
  })

  test('of an owner who is known already, or named twice in the file, add that owner no second time', () => {
    const planned = plan(
      'cars',
      header,
      '21;A;van;;orla  TREND;;;;;;',
      '22;B;van;;Ada Fell;;;;;;',
      '23;C;van;;ada fell;;;;;;',
    )
    expect(payloads('addParty', planned).map((each) => each.contact.name)).toEqual(['Ada Fell'])
    const owners = payloads('addCar', planned).map((each) => each.visit.ownerId)
    expect(owners[0]).toBe('party-orla')
    expect(owners[1]).toBe(owners[2])
  })

  test('name line, column, what is wrong and what to do for every bad cell', () => {
    const found = problems(
      'cars',
      header,
      '21;A;van;;Ada Fell;;;;;;',
      '2 2;;barge;62;;;ada@;12/11/2026;urgent;gone;capped much',
    )
    expect(found.map((each) => each.line)).toEqual(Array.from({ length: 10 }, () => 3))
    expect(found.map((each) => each.column)).toEqual([
      'shell number',
      'name',
      'body',
      'year',
      'owner',
      'email',
      'promised',
      'priority',
      'status',
      'charge',
    ])
    expect(found.map((each) => each.next)).toEqual(found.map(() => expect.stringMatching(/\S/)))
    expect(found.find((each) => each.column === 'promised')?.next).toContain('2026-11-25')
  })

  test('keep emoji and markup in names as plain text and refuse 10,000 characters', () => {
    const planned = plan('cars', header, `21;🚗 <b>Corran</b> & Söhne;van;;Ada Fell;;;;;;`)
    expect(payloads('addCar', planned)[0]?.name).toBe('🚗 <b>Corran</b> & Söhne')
    const [problem] = problems('cars', header, `21;${'x'.repeat(10_000)};van;;Ada Fell;;;;;;`)
    expect(problem?.message).toContain('at most 120 characters')
  })
})

describe('repairs', () => {
  const header = 'shell number,repair type,name,side,place,payer,covers,opened'

  test('become a copy of their type with the hours of the file', () => {
    const planned = plan(
      'repairs',
      header,
      '14,Boot floor,,,,insurer,,1/2/4',
      '14,boot floor,Second floor,left,front,,,3',
    )
    const [first, second] = payloads('addRepair', planned)
    expect(first).toMatchObject({ type: { typeId: 'type-boot', version: 1 }, payer: 'insurer' })
    expect(first?.plan).toMatchObject({ name: 'Boot floor', zone: { side: 'centre', place: 'rear' } })
    expect(first?.plan.gates.opened.hours).toEqual({ shortest: 1, likely: 2, longest: 4 })
    expect(first?.plan.gates.welded.hours).toEqual({ shortest: 1, likely: 1.5, longest: 3 })
    expect(second?.plan).toMatchObject({ name: 'Second floor', zone: { side: 'left', place: 'front' } })
    expect(second?.payer).toBe('owner')
    const partIds = [first, second].flatMap((each) => each?.plan.parts.map((part) => part.partId))
    expect(new Set(partIds).size).toBe(partIds.length)
  })

  test('cover repairs further down in the file and on the car already; links come after all repairs', () => {
    const planned = plan(
      'repairs',
      header,
      '14,Boot floor,Cover,,,,Hidden|Old hanger,',
      '14,Boot floor,Hidden,,,,,',
    )
    expect(planned.commands.map(({ command }) => command.kind)).toEqual([
      'addRepair',
      'addRepair',
      'linkCover',
      'linkCover',
    ])
    const [cover, hidden] = payloads('addRepair', planned)
    expect(payloads('linkCover', planned)).toEqual([
      { over: cover?.repairId, under: hidden?.repairId },
      { over: cover?.repairId, under: 'repair-old' },
    ])
  })

  test.each([
    ['an unknown car', '99,Boot floor,,,,,,', 'shell number'],
    ['an unknown type', '14,Bonnet ornament,,,,,,', 'repair type'],
    ['a cover that is not on the car', '14,Boot floor,,,,,No such,', 'covers'],
    ['hours that fall', '14,Boot floor,,,,,,4/2/1', 'opened'],
    ['two numbers for hours', '14,Boot floor,,,,,,1/2', 'opened'],
  ])('with %s are refused on their line', (_what, line, column) => {
    expect(problems('repairs', header, line)).toMatchObject([{ line: 2, column }])
  })

  test('that a cover names twice are refused, as it is not certain which is meant', () => {
    const bad = problems(
      'repairs',
      header,
      '14,Boot floor,Twin,,,,,',
      '14,Boot floor,Twin,,,,,',
      '14,Boot floor,Cover,,,,Twin,',
    )
    expect(bad).toMatchObject([{ line: 4, column: 'covers' }])
    expect(bad[0]?.message).toContain('not certain')
  })
})

describe('hours', () => {
  const header = 'person;date;hours;from;to;shell number;repair;gate;task;workshop work;rework cause;note'

  test('become entries on a gate, a task and the workshop, by the day or by the clock', () => {
    const planned = plan(
      'hours',
      header,
      'Iris Vane;2026-11-24;7,5;;;14;Old hanger;fabricated;;;;',
      'iris vane;2026-11-24;;8:00;12:30;14;;;Strip;;;half a day',
      'Iris Vane;2026-11-24;0.5;;;;;;;Sweeping;;',
    )
    expect(planned.lines.flatMap((line) => line.problems)).toEqual([])
    expect(payloads('logTime', planned)).toMatchObject([
      {
        personId: 'person-iris',
        on: { kind: 'work', targets: [{ kind: 'gate', repairId: 'repair-old', gate: 'fabricated' }] },
        time: { kind: 'day', date: '2026-11-24', hours: 7.5 },
      },
      {
        on: { kind: 'work', targets: [{ kind: 'task', taskId: 'task-strip' }] },
        // Berlin is an hour ahead of UTC in November.
        time: { kind: 'span', start: '2026-11-24T08:00:00+01:00', end: '2026-11-24T12:30:00+01:00' },
        note: 'half a day',
      },
      { on: { kind: 'workshop', what: 'Sweeping' } },
    ])
    expect(planned.commands.map(({ command }) => command.carId)).toEqual([
      'car-fourteen',
      'car-fourteen',
      null,
    ])
  })

  test.each([
    ['more than 24 hours', 'Iris Vane;2026-11-24;25;;;14;;;Strip;;;', 'hours', '24 hours'],
    ['negative hours', 'Iris Vane;2026-11-24;-2;;;14;;;Strip;;;', 'hours', 'more than zero'],
    ['no hours', 'Iris Vane;2026-11-24;0;;;14;;;Strip;;;', 'hours', 'more than zero'],
    ['a thousands mark', 'Iris Vane;2026-11-24;1.000;;;14;;;Strip;;;', 'hours', 'number'],
    ['hours and times', 'Iris Vane;2026-11-24;2;8:00;;14;;;Strip;;;', 'hours', 'as well'],
    ['only a start', 'Iris Vane;2026-11-24;;8:00;;14;;;Strip;;;', 'hours', 'how long'],
    [
      'an end before the start',
      'Iris Vane;2026-11-24;;12:00;08:00;14;;;Strip;;;',
      'to',
      'not after it starts',
    ],
    ['an impossible time', 'Iris Vane;2026-11-24;;8:00;24:30;14;;;Strip;;;', 'to', 'time of day'],
    ['an unknown person', 'Nobody;2026-11-24;2;;;14;;;Strip;;;', 'person', 'Nobody'],
    ['a day that does not exist', 'Iris Vane;2026-02-30;2;;;14;;;Strip;;;', 'date', '2026-02-30'],
    ['a date that can be read two ways', 'Iris Vane;11/12/2026;2;;;14;;;Strip;;;', 'date', '11/12/2026'],
    ['a repair without its gate', 'Iris Vane;2026-11-24;2;;;14;Old hanger;;;;;', null, 'worked on'],
    ['nothing that was worked on', 'Iris Vane;2026-11-24;2;;;;;;;;;', null, 'worked on'],
    ['a task of another car', 'Iris Vane;2026-11-24;2;;;14;;;Paint;;;', 'task', 'Paint'],
    ['an unknown gate', 'Iris Vane;2026-11-24;2;;;14;Old hanger;polished;;;;', 'gate', 'polished'],
  ])('with %s are refused on their line', (_what, line, column, words) => {
    const bad = problems('hours', header, line)
    expect(bad).toMatchObject([{ line: 2, column }])
    expect(bad[0]?.message).toContain(words)
    expect(bad[0]?.next).not.toBe('')
  })
})

describe('the commands of an import', () => {
  const lines = [
    'person;date;hours;workshop work',
    'Iris Vane;2026-11-24;1;Sweeping',
    'Iris Vane;2026-11-25;1;Sweeping',
  ]

  test('are whole, signed by who brings the file in, and the same each time', () => {
    const planned = plan('hours', ...lines)
    for (const { command } of planned.commands) expect(commandSchema.parse(command)).toEqual(command)
    expect(planned.commands.map(({ command }) => command.by)).toEqual(['person-mona', 'person-mona'])
    expect(plan('hours', ...lines)).toEqual(planned)
  })

  test('know the line that each comes from', () => {
    expect(plan('hours', ...lines).commands.map((each) => each.line)).toEqual([2, 3])
  })
})
