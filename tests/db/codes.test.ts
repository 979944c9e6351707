import { randomBytes } from 'node:crypto'
import { rmSync } from 'node:fs'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { codeKeyPath } from '../../db/data-paths.ts'
import { verifyCode } from '../../db/codes.ts'
import { pairDevice, signedIn, signIn } from '../../db/devices.ts'
import { personIdSchema, type DeviceId, type PersonId } from '../../domain/ids.ts'
import { codes, createWorkshop, desk, manager, tablet, welder, type Workshop } from '../support/workshop.ts'

let workshop: Workshop

beforeEach(() => {
  workshop = createWorkshop({ keptIn: 'folder' })
})

afterEach(() => {
  workshop.close()
})

const give = (code: string, personId: PersonId = welder, device: DeviceId = tablet) =>
  verifyCode(workshop.db, { personId, device, code, now: workshop.now })

/** 'right', or the code of the refusal. */
const outcome = async (...args: Parameters<typeof give>): Promise<string> => {
  const result = await give(...args)
  return result.ok ? 'right' : result.refusal.code
}

const giveWrong = async (times: number): Promise<string> => {
  let last = ''
  for (let each = 0; each < times; each += 1) last = await outcome('0000')
  return last
}

describe('a code', () => {
  test("is the person's own or it is wrong", async () => {
    expect(await outcome(codes[welder]!)).toBe('right')
    expect(await outcome(codes[manager]!)).toBe('wrong-code')
    expect(await outcome('')).toBe('wrong-code')
    expect(await outcome('1234', personIdSchema.parse('person-nobody'))).toBe('wrong-code')
  })

  test('that was set anew is the only one that counts, at once', async () => {
    workshop.run('setCode', { personId: welder, newCode: '999999' }, { by: welder })
    expect(await outcome(codes[welder]!)).toBe('wrong-code')
    expect(await outcome('999999')).toBe('right')
  })

  test('that is kept on a disk takes 16 MB and some tens of milliseconds to be tried', async () => {
    workshop.run('setCode', { personId: welder, newCode: '999999' }, { by: welder })
    const costOf = workshop.db.writer.sqlite.prepare('SELECT cost FROM code WHERE person_id = ?').pluck()
    expect(costOf.get(welder)).toBe(2 ** 14)
    expect(await outcome('999999')).toBe('right')
  })

  test('that was set anew signs its person out everywhere but where it was set', () => {
    for (const id of [desk, tablet]) {
      pairDevice(workshop.db, { id, name: id }, workshop.now)
      signIn(workshop.db, id, welder, workshop.now)
    }
    workshop.run('setCode', { personId: welder, newCode: '999999' }, { by: welder, device: tablet })
    expect(signedIn(workshop.db, tablet)).toBe(welder)
    expect(signedIn(workshop.db, desk)).toBeNull()
  })

  test('is in the database neither as it is nor as a hash that can be tried without the key', async () => {
    const rows = workshop.db.writer.sqlite.prepare('SELECT * FROM code').all()
    expect(JSON.stringify(rows)).not.toContain(codes[manager])
    expect(rows).toHaveLength(3)
    workshop.db = { ...workshop.db, codeKey: randomBytes(32) }
    const result = await give(codes[welder]!)
    expect(result).toMatchObject({ ok: false, refusal: { next: expect.stringContaining('recovery sheet') } })
  })

  test('is known again after the host was started anew, but not in a copy without the key', async () => {
    workshop.restart()
    expect(await outcome(codes[welder]!)).toBe('right')
    workshop.db.close()
    rmSync(codeKeyPath(workshop.dataDir!))
    workshop.reopen()
    expect(await outcome(codes[welder]!)).toBe('wrong-code')
  })
})

describe('five wrong codes', () => {
  test('lock that person on that device for a minute, even for the right code', async () => {
    expect(await giveWrong(4)).toBe('wrong-code')
    expect(await outcome('0000')).toBe('locked')
    expect(await outcome(codes[welder]!)).toBe('locked')
    workshop.pass({ minutes: 1 })
    expect(await outcome(codes[welder]!)).toBe('right')
  })

  test('lock nobody else and no other device', async () => {
    await giveWrong(5)
    expect(await outcome(codes[welder]!, welder, desk)).toBe('right')
    expect(await outcome(codes[manager]!, manager, tablet)).toBe('right')
    expect(await outcome(codes[welder]!)).toBe('locked')
  })

  test('lock twice as long each time, up to an hour, and say how long', async () => {
    const minutes: number[] = []
    for (let round = 0; round < 8; round += 1) {
      expect(await giveWrong(5)).toBe('locked')
      const locked = await give('0000')
      const words = locked.ok ? '' : locked.refusal.next
      const wait = words.includes('in a minute') ? 1 : Number(/in (\d+) minutes/.exec(words)?.[1])
      minutes.push(wait)
      workshop.pass({ minutes: wait })
    }
    expect(minutes).toEqual([1, 2, 4, 8, 16, 32, 60, 60])
  })

  test('are counted from the last right one', async () => {
    await giveWrong(4)
    expect(await outcome(codes[welder]!)).toBe('right')
    expect(await giveWrong(4)).toBe('wrong-code')
    expect(await outcome(codes[welder]!)).toBe('right')
  })

  test('are counted when they all come at the same moment', async () => {
    const outcomes = await Promise.all(Array.from({ length: 12 }, () => outcome('0000')))
    expect(outcomes.filter((each) => each === 'wrong-code')).toHaveLength(4)
    expect(outcomes.filter((each) => each === 'locked')).toHaveLength(8)
  })

  test('stay counted when the host is started anew', async () => {
    await giveWrong(5)
    workshop.restart()
    expect(await outcome(codes[welder]!)).toBe('locked')
  })

  test('are forgiven when a manager sets a new code', async () => {
    await giveWrong(5)
    workshop.run('setCode', { personId: welder, newCode: '999999' })
    expect(await outcome('999999')).toBe('right')
  })
})

test('who becomes a manager is given a new code as long as those of managers', async () => {
  const asManager = {
    personId: welder,
    roles: ['technician' as const, 'manager' as const],
    skills: ['metalwork', 'welding'],
    week: null,
    absences: [],
    active: true,
    contact: { name: 'Ilse Brandt', phone: '', email: '' as const, address: '' },
  }
  expect(workshop.refused('changePerson', asManager)).toMatchObject({
    message: 'Who becomes a manager needs a new code.',
    next: 'Choose one of 6 digits or more.',
  })
  expect(workshop.refused('changePerson', { ...asManager, newCode: '12345' }).message).toBe(
    "A manager's code has 6 digits or more.",
  )
  workshop.run('changePerson', { ...asManager, newCode: '271828' })
  expect(await outcome(codes[welder]!)).toBe('wrong-code')
  expect(await outcome('271828')).toBe('right')
  workshop.run('changePerson', { ...asManager, skills: ['welding'] })
  expect(await outcome('271828')).toBe('right')
})
