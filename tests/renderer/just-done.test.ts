import { afterEach, describe, expect, test } from 'vitest'
import type { Command, CommandKind } from '../../domain/commands/command-shapes.ts'
import { justDone, tellDone } from '../../renderer/outbox/just-done.ts'

const told = () => ({ what: 'What was done', where: 'Larkspur 4', on: '', by: '' })
const tell = (kind: CommandKind, numbers: readonly number[], payload: unknown = {}) => {
  tellDone({ kind, carId: 'car-1', payload } as Command, numbers, told)
  return justDone.now()?.back ?? null
}
afterEach(justDone.putAway)

describe('what was just done', () => {
  test('is taken back by voiding its line, with the reason that is usual for it', () => {
    expect(tell('startClock', [41])).toEqual({ is: 'void', number: 41, usualReason: 'Started by mistake.' })
    expect(tell('attachPhoto', [42])).toMatchObject({ is: 'void', number: 42 })
  })

  test('needs a reason of its own where it was signed', () => {
    expect(tell('passGate', [43])).toEqual({ is: 'void', number: 43, usualReason: '' })
  })

  test('is retired where it is a repair, as repairs are never voided', () => {
    expect(tell('addRepair', [44, 45], { repairId: 'repair-1' })).toEqual({
      is: 'retire',
      repairId: 'repair-1',
    })
  })

  test('is left to the record where it is several lines, or nothing that a hand does in passing', () => {
    expect(tell('passGate', [46, 47])).toBeNull()
    expect(tell('acceptEstimate', [48])).toBeNull()
    // Another page of this device has sent it, so that its number is not known here.
    expect(tell('startClock', [])).toBeNull()
  })
})
