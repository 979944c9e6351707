import { type ScreenAddress, SCREENS } from '../../domain/screens.ts'

/** What a key asks of the frame. */
export type KeyAct =
  | { readonly kind: 'find' | 'keys' | 'help' }
  | { readonly kind: 'go'; readonly to: ScreenAddress }

export type PressedKey = Pick<KeyboardEvent, 'key' | 'code' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey'>

export interface KeySetting {
  readonly isMac: boolean
  /** A window without tabs, in which Ctrl and a figure are free; in a browser they change its tabs. */
  readonly isOwnWindow: boolean
  /** Keys without Ctrl or Alt do something (WCAG 2.2, 2.1.4: whoever speaks to type can switch them off). */
  readonly hasSingleKeys: boolean
  /** The focus is in a field, where characters are typed. */
  readonly isTyping: boolean
}

/**
 * Null for a key that is none of the frame's. Figures go by their place on the keyboard, as some layouts have them behind
 * Shift and a Mac types other signs with its Option key.
 */
export function keyAct(pressed: PressedKey, setting: KeySetting): KeyAct | null {
  const { key, ctrlKey, metaKey, altKey, shiftKey } = pressed
  const { isMac, isOwnWindow, hasSingleKeys, isTyping } = setting
  const isMod = (isMac ? metaKey && !ctrlKey : ctrlKey && !metaKey) && !altKey
  if (isMod && !shiftKey && key.toLowerCase() === 'k') return { kind: 'find' }
  if (key === 'F1') return { kind: 'help' }
  if (isTyping) return null
  const isAlt = altKey && !ctrlKey && !metaKey
  if ((isAlt || (isMod && isOwnWindow)) && !shiftKey) return goTo(pressed.code)
  if (!hasSingleKeys || ctrlKey || metaKey || altKey) return null
  if (key === '/') return { kind: 'find' }
  return key === '?' ? { kind: 'keys' } : null
}

function goTo(code: string): KeyAct | null {
  const figure = /^Digit([1-8])$/.exec(code)?.[1]
  const screen = SCREENS[Number(figure) - 1]
  return screen === undefined ? null : { kind: 'go', to: screen.to }
}
