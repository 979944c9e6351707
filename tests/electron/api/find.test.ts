import Sqlite from 'better-sqlite3'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { checkDerived } from '../../../db/check-derived.ts'
import type { CarId, RepairId } from '../../../domain/ids.ts'
import { attachmentIdSchema, findingIdSchema, holdIdSchema, partyIdSchema } from '../../../domain/ids.ts'
import type { FoundKind } from '../../../domain/views/find-shapes.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { createTestPhoto } from '../../support/images.ts'
import { addRepair, bringInLarkspur } from '../../support/larkspur.ts'
import { repairPlan } from '../../support/plans.ts'
import { manager, owner, welder } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
let larkspur: CarId
let marrick: CarId
let sill: RepairId
const mueller = partyIdSchema.parse('party-mueller')
const noContact = { phone: '+49 40 5551234', email: 'mueller@example.net', address: 'Hafenstraße 9' }

beforeAll(async () => {
  host = await createTestHost()
  const { workshop } = host
  screen = await host.openScreen()
  larkspur = bringInLarkspur(workshop)
  workshop.run('addParty', {
    partyId: mueller,
    kind: 'owner',
    contact: { name: 'Jürgen Müller', ...noContact },
  })
  marrick = workshop.addCar('Marrick 2', 'S-102-7')
  sill = addRepair(workshop, larkspur, 'Left sill')
  addRepair(workshop, larkspur, 'Sill end, left')
  addRepair(workshop, marrick, 'Left sill')
  workshop.run('addNote', { text: 'The sillplate came from the donor.' }, { carId: marrick })
  await takePhoto('pinholes', 'Pinholes behind the Nahtabdichtung, heiß geschweißt', sill)
  await takePhoto('silent', '', sill)
})
afterAll(async () => {
  await host.close()
  if (host.log.length > 0) throw new Error(`The host reported a defect: ${host.log.join('\n')}`)
})

async function takePhoto(name: string, caption: string, repairId: RepairId) {
  const put = await screen.upload(await createTestPhoto({ width: 40, height: 30, color: '#863' }))
  const { sha256 } = (await put.json()) as { readonly sha256: string }
  const serves = [{ what: 'gate', repairId, gate: 'opened', layerId: null, shows: 'work' }] as const
  const payload = {
    attachmentId: attachmentIdSchema.parse(`photo-${name}`),
    sha256,
    taken: null,
    caption,
    serves: [...serves],
  }
  host.workshop.run('attachPhoto', payload, { carId: larkspur, by: welder })
}

/** As 'kind: words (beside)'. */
async function find(text: string, asker = screen): Promise<readonly string[]> {
  const { groups } = await asker.client.find.query({ text })
  return groups.flatMap(({ kind, found }) =>
    found.map(({ words, beside }) => `${kind}: ${words} (${beside})`),
  )
}
const of = async (kind: FoundKind, text: string) => (await find(text)).filter((line) => line.startsWith(kind))

describe('a search', () => {
  test('finds a car by its name and by its shell number, with its dashes or without', async () => {
    const car = 'car: Marrick 2 (1961, tourer, shell S-102-7)'
    for (const text of ['marrick', 'Marrick 2', 's-102', 's1027', 'MARR s-102'])
      expect(await find(text)).toContain(car)
    expect(await of('car', 'marrick 3')).toEqual([])
  })

  test('finds an owner by a name written without its marks, with each of their cars, and who has none in the contacts', async () => {
    expect(await find('muller')).toEqual(['owner: Jürgen Müller (owner, in the contacts)'])
    const [first] = await of('owner', 'okafor')
    expect(first).toContain('shell S-10')
  })

  test('finds a repair by its words with those of its car, and not by the car alone', async () => {
    expect(await of('repair', 'sill marr')).toEqual(['repair: Left sill (Marrick 2)'])
    expect(await of('repair', 'marrick')).toEqual([])
  })

  test('finds a photo by its caption and the repair that it shows, and a note by a word in it', async () => {
    expect(await of('photo', 'geschweisst sill')).toEqual([
      'photo: Pinholes behind the Nahtabdichtung, heiß geschweißt (Left sill, Larkspur 4)',
    ])
    expect(await find('donor')).toEqual(['note: The sillplate came from the donor. (Marrick 2)'])
  })

  test('tells where each leads to', async () => {
    const { groups } = await screen.client.find.query({ text: 'pinholes' })
    expect(groups).toMatchObject([
      {
        kind: 'photo',
        more: 0,
        found: [{ carId: larkspur, repairId: sill, attachmentId: 'photo-pinholes', line: null }],
      },
    ])
    expect(groups[0]?.found[0]?.sha256).toMatch(/^[0-9a-f]{64}$/)
    const note = (await screen.client.find.query({ text: 'donor' })).groups[0]?.found[0]
    const record = await screen.client.record.query({ carId: marrick })
    expect(record.lines.find(({ number }) => number === note?.line)?.words).toBe(note?.words)
  })

  test('sets whole words before beginnings, and the newer first among either', async () => {
    const { workshop } = host
    addRepair(workshop, marrick, 'Silly bracket')
    expect(await of('repair', 'sill')).toEqual([
      'repair: Left sill (Marrick 2)',
      'repair: Sill end, left (Larkspur 4)',
      'repair: Left sill (Larkspur 4)',
      'repair: Silly bracket (Marrick 2)',
    ])
  })

  test('shows five of a kind and says how many more there are', async () => {
    for (const side of ['front', 'middle', 'rear'])
      host.workshop.run('addNote', { text: `Wax in the ${side} cavity` }, { carId: larkspur })
    for (let turn = 1; turn <= 4; turn += 1)
      host.workshop.run('addNote', { text: `Wax again, turn ${turn}` }, { carId: larkspur })
    const { groups } = await screen.client.find.query({ text: 'wax' })
    expect(groups).toMatchObject([{ kind: 'note', more: 2, isAtLeast: false }])
    expect(groups[0]?.found).toHaveLength(5)
  })

  test('finds what was found, why work is held, and what was noted with a gate until it is taken back', async () => {
    const { workshop } = host
    const floor = addRepair(workshop, larkspur, 'Boot floor', { passed: 'opened' })
    const on = { carId: larkspur }
    workshop.run(
      'addFinding',
      {
        findingId: findingIdSchema.parse('finding-crack'),
        repairId: floor,
        layerId: null,
        kind: 'crack',
        grade: 'pitted',
        extent: 'Hairline along the flange',
        needs: 'Weld and dress.',
        attachments: [],
      },
      on,
    )
    const scope = { kind: 'repair', repairId: floor } as const
    const held = {
      holdId: holdIdSchema.parse('hold-tank'),
      scope,
      words: 'Fuel tank still in',
      clears: 'Ines',
    }
    workshop.run('setHold', { ...held, expected: null }, on)
    expect(await find('hairline dress')).toEqual([
      'note: Hairline along the flange; needs Weld and dress. (Boot floor, Larkspur 4)',
    ])
    expect(await find('tank floor')).toEqual(['note: Fuel tank still in (Boot floor, Larkspur 4)'])

    const notNeeded = { repairId: floor, gate: 'trial-fitted', reason: 'Nothing meets this edge' } as const
    workshop.run('markNotNeeded', notNeeded, on)
    expect(await find('meets')).toEqual([
      'note: Nothing meets this edge (Boot floor: trial-fitted, Larkspur 4)',
    ])
    expect((await screen.client.find.query({ text: 'meets' })).groups[0]?.found[0]?.repairId).toBe(floor)
    const back = { repairId: floor, gate: 'trial-fitted', cause: 'fit', reason: 'It does.' } as const
    workshop.run('reopenGate', back, on)
    expect(await find('meets')).toEqual([])
    expect(await find('hairline')).toHaveLength(1)
    expect(checkDerived(workshop.db.reader)).toEqual([])
  })

  test('asks nothing of the tables for what holds no letter or digit, and refuses what nobody types', async () => {
    expect(await find(' -- "*" ')).toEqual([])
    expect(await find('sill" OR photo : "a')).toEqual([])
    await expect(screen.client.find.query({ text: 'a'.repeat(201) })).rejects.toThrow('Ask for fewer words.')
  })

  test('follows what is renamed, said anew and voided', async () => {
    const { workshop } = host
    const caption = (text: string) =>
      workshop.run(
        'setCaption',
        { attachmentId: attachmentIdSchema.parse('photo-pinholes'), caption: text },
        { carId: larkspur, by: welder },
      )
    caption('Gutter, clean')
    expect(await of('photo', 'pinholes')).toEqual([])
    expect(await of('photo', 'gutter')).toHaveLength(1)
    caption('')
    expect(await of('photo', 'gutter')).toEqual([])
    caption('Gutter, clean')

    workshop.run(
      'changeRepair',
      {
        repairId: sill,
        plan: repairPlan('Rocker, left'),
        typeVersion: null,
        reason: 'as the owner calls it',
      },
      { carId: larkspur },
    )
    expect(await of('photo', 'gutter rocker')).toEqual(['photo: Gutter, clean (Rocker, left, Larkspur 4)'])

    const [number = 0] = workshop.run('addNote', { text: 'Wrongcar' }, { carId: larkspur }).numbers
    expect(await of('note', 'wrongcar')).toHaveLength(1)
    workshop.run('voidFact', { number, reason: 'of another car' }, { carId: larkspur })
    expect(await of('note', 'wrongcar')).toEqual([])
    expect(await of('photo', 'gutter')).toHaveLength(1)
  })
})

describe('names in a search', () => {
  test('are found by everybody who is let in, with nothing else of the contact book, also for a manager', async () => {
    const technicians = await host.openScreen()
    await technicians.signIn(welder)
    const managers = await host.openScreen()
    await managers.signIn(manager)
    for (const asker of [screen, technicians, managers]) {
      const answer = await asker.client.find.query({ text: 'müller' })
      expect(answer.groups.map(({ kind }) => kind)).toEqual(['owner'])
      for (const detail of Object.values(noContact)) expect(JSON.stringify(answer)).not.toContain(detail)
      for (const detail of ['5551234', 'example', 'Hafenstraße'])
        expect(await find(detail, asker)).toEqual([])
    }
  })

  test('are in no table that a search goes through, so that an erased one is found no more', async () => {
    const { sqlite } = host.workshop.db.writer
    const tables = sqlite
      .prepare(`SELECT name FROM pragma_table_list WHERE name LIKE 'searched%'`)
      .pluck()
      .all()
    expect(tables.length).toBeGreaterThan(2)
    const words = sqlite.prepare(
      `SELECT count(*) FROM searched_words WHERE searched_words MATCH 'muller OR okafor'`,
    )
    expect(words.pluck().get()).toBe(0)
    expect(await of('owner', 'muller')).toHaveLength(1)
    host.workshop.run('eraseContact', { id: mueller })
    for (const text of ['muller', 'name erased']) expect(await of('owner', text)).toEqual([])
    sqlite.prepare(`DELETE FROM contact WHERE id = ?`).run(owner)
    for (const text of ['okafor', 'somebody']) expect(await of('owner', text)).toEqual([])
  })
})

test('each kind is found by the index of its words, from the newest on, and counted by it alone', async () => {
  const statements = new Set<string>()
  const fresh = await createTestHost()
  const { prepare } = Sqlite.prototype
  vi.spyOn(Sqlite.prototype, 'prepare').mockImplementation(function (this: Sqlite.Database, text: string) {
    statements.add(text)
    return prepare.call(this, text)
  } as typeof prepare)
  await (await fresh.openScreen()).client.find.query({ text: 'sill' })
  vi.restoreAllMocks()
  const asked = [...statements].filter((text) => text.includes('MATCH'))
  const steps = asked.map((text) =>
    (
      fresh.workshop.db.writer.sqlite.prepare(`EXPLAIN QUERY PLAN ${text}`).all('', 1) as { detail: string }[]
    ).map(({ detail }) => detail),
  )
  // 'M' is what is matched, 192 the order of numbers downwards, as FTS5's source names them: nothing is sorted.
  expect(steps).toEqual([
    [
      'SCAN searched_words VIRTUAL TABLE INDEX 192:M4',
      'SEARCH searched USING INTEGER PRIMARY KEY (rowid=?)',
      'SEARCH attachment USING PRIMARY KEY (id=?) LEFT-JOIN',
    ],
    ['CO-ROUTINE (subquery-1)', 'SCAN searched_words VIRTUAL TABLE INDEX 0:M4', 'SCAN (subquery-1)'],
  ])
  await fresh.close()
})
