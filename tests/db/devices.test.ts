import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import {
  deviceByToken,
  pairDevice,
  readDevices,
  recordUse,
  renameDevice,
  revokeDevice,
  shutOutName,
  signedIn,
  signIn,
  signOut,
} from '../../db/devices.ts'
import { readSetting, writeSetting } from '../../db/settings.ts'
import { createWorkshop, desk, manager, tablet, welder, type Workshop } from '../support/workshop.ts'

let workshop: Workshop

beforeEach(() => {
  workshop = createWorkshop({ setUp: false })
})

afterEach(() => {
  workshop.close()
})

const pair = (id = tablet, name = 'Tablet by the jig') => pairDevice(workshop.db, { id, name }, workshop.now)

describe('a paired device', () => {
  test('is known by its token and by no other', () => {
    const { token, device } = pair()
    pair(desk, 'Desk')
    const paired = '2026-11-23T07:00:00.000Z'
    expect(device).toEqual({ id: tablet, name: 'Tablet by the jig', paired, lastUsed: null })
    expect(deviceByToken(workshop.db, token)).toEqual(device)
    expect(deviceByToken(workshop.db, `${token}x`)).toBeNull()
    expect(deviceByToken(workshop.db, '')).toBeNull()
    expect(readDevices(workshop.db).map(({ id }) => id)).toEqual([desk, tablet])
  })

  test('has a token of 256 random bits, which is kept nowhere', () => {
    const { token } = pair()
    expect(Buffer.from(token, 'base64url')).toHaveLength(32)
    expect(JSON.stringify(workshop.db.writer.sqlite.prepare('SELECT * FROM device').all())).not.toContain(
      token,
    )
  })

  test('has one person signed in at a time', () => {
    pair()
    expect(signedIn(workshop.db, tablet)).toBeNull()
    signIn(workshop.db, tablet, welder, workshop.now)
    signIn(workshop.db, tablet, manager, workshop.now)
    expect(signedIn(workshop.db, tablet)).toBe(manager)
    signOut(workshop.db, tablet)
    expect(signedIn(workshop.db, tablet)).toBeNull()
  })

  test('that is shut out is unknown, and nobody is signed in on it', () => {
    const { token } = pair()
    signIn(workshop.db, tablet, welder, workshop.now)
    expect(shutOutName(workshop.db, token)).toBeNull()
    expect(revokeDevice(workshop.db, tablet, workshop.now)).toBe(true)
    expect(deviceByToken(workshop.db, token)).toBeNull()
    expect(signedIn(workshop.db, tablet)).toBeNull()
    expect(readDevices(workshop.db)).toEqual([])
    expect(shutOutName(workshop.db, token)).toBe('Tablet by the jig')
    expect(shutOutName(workshop.db, 'made-up')).toBeNull()
  })

  test('that is shut out is not shut out again, nor named anew', () => {
    pair()
    revokeDevice(workshop.db, tablet, workshop.now)
    expect(revokeDevice(workshop.db, tablet, workshop.now)).toBe(false)
    expect(renameDevice(workshop.db, tablet, 'Tablet at the bench')).toBe(false)
  })

  test('gets another name, and keeps when it was last used', () => {
    const { token } = pair()
    pair(desk, 'Desk')
    expect(renameDevice(workshop.db, tablet, 'Tablet at the bench')).toBe(true)
    recordUse(workshop.db, tablet, workshop.now)
    expect(deviceByToken(workshop.db, token)).toMatchObject({
      name: 'Tablet at the bench',
      lastUsed: '2026-11-23T07:00:00.000Z',
    })
    expect(readDevices(workshop.db)[0]).toMatchObject({ name: 'Desk', lastUsed: null })
  })

  test('must be paired before anybody signs in on it', () => {
    expect(() => signIn(workshop.db, tablet, welder, workshop.now)).toThrow(/FOREIGN KEY/)
  })
})

test('a setting of the host keeps its last value', () => {
  expect(readSetting(workshop.db, 'demo')).toBeNull()
  writeSetting(workshop.db, 'demo', 'yes')
  writeSetting(workshop.db, 'demo', 'no')
  expect(readSetting(workshop.db, 'demo')).toBe('no')
})
