import { describe, expect, test } from 'vitest'
import { SCREENS } from '../../domain/screens.ts'
import { keyAct, type KeySetting, type PressedKey } from '../../renderer/keys/key-act.ts'
import { KEY_MAP, keyMapFor } from '../../renderer/keys/keys.ts'

const usual: KeySetting = { isMac: false, isOwnWindow: false, hasSingleKeys: true, isTyping: false }
const pressed = (key: string, more: Partial<PressedKey> = {}): PressedKey => ({
  key,
  code: /^\d$/.test(key) ? `Digit${key}` : '',
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  shiftKey: false,
  ...more,
})

describe('a key of the frame', () => {
  test('opens the search with Ctrl and K, on a Mac with its own key, and help with F1, from a field too', () => {
    for (const isTyping of [false, true]) {
      expect(keyAct(pressed('k', { ctrlKey: true }), { ...usual, isTyping })).toEqual({ kind: 'find' })
      const mac = { ...usual, isMac: true, isTyping }
      expect(keyAct(pressed('k', { metaKey: true }), mac)).toEqual({ kind: 'find' })
      // Ctrl and K deletes to the end of the line in a Mac's fields.
      expect(keyAct(pressed('k', { ctrlKey: true }), mac)).toBeNull()
    }
    expect(keyAct(pressed('F1'), { ...usual, isTyping: true })).toEqual({ kind: 'help' })
    expect(keyAct(pressed('K', { ctrlKey: true, shiftKey: true }), usual)).toBeNull()
  })

  test('that is pressed alone does something where nobody types and it is not switched off', () => {
    expect(keyAct(pressed('/'), usual)).toEqual({ kind: 'find' })
    expect(keyAct(pressed('?', { shiftKey: true }), usual)).toEqual({ kind: 'keys' })
    for (const setting of [
      { ...usual, isTyping: true },
      { ...usual, hasSingleKeys: false },
    ])
      for (const key of ['/', '?']) expect(keyAct(pressed(key), setting)).toBeNull()
  })

  test('leads to the screens in their order, by the place of the figures', () => {
    const to = SCREENS.map((_, index) => keyAct(pressed(String(index + 1), { altKey: true }), usual))
    expect(to).toEqual(SCREENS.map((screen) => ({ kind: 'go', to: screen.to })))
    expect(keyAct(pressed('¡', { altKey: true, code: 'Digit1' }), { ...usual, isMac: true })).toEqual(to[0])
    for (const key of ['0', '9', 'x']) expect(keyAct(pressed(key, { altKey: true }), usual)).toBeNull()
    expect(keyAct(pressed('1', { altKey: true }), { ...usual, isTyping: true })).toBeNull()
  })

  test('leaves Ctrl and a figure to the tabs of a browser, and takes it in a window without', () => {
    const key = pressed('2', { ctrlKey: true })
    expect(keyAct(key, usual)).toBeNull()
    expect(keyAct(key, { ...usual, isOwnWindow: true })).toEqual({ kind: 'go', to: '/plan' })
  })
})

test('the keyboard map has what works everywhere first, then what works on the screen', () => {
  expect(
    keyMapFor('/plan')
      .map(({ where }) => where)
      .slice(0, 3),
  ).toEqual(['Everywhere', 'The plan as a drawing', 'A stay that was taken up in the plan'])
  expect(keyMapFor('/cars/car-1/repairs/repair-1')[1]?.where).toBe('A photo that is shown large')
  expect(keyMapFor('/variance')[0]?.where).toBe('Everywhere')
  for (const path of SCREENS) expect(keyMapFor(path.to)).toHaveLength(KEY_MAP.length)
})
