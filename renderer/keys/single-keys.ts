import { createFollowed, useFollowed } from '../followed.ts'

const KEY = 'panelwright-single-keys'
const singleKeys = createFollowed(localStorage.getItem(KEY) !== 'off')

/** Whether keys without Ctrl or Alt do something on this device. */
export const hasSingleKeys = singleKeys.now

export function setSingleKeys(isOn: boolean): void {
  if (isOn) localStorage.removeItem(KEY)
  else localStorage.setItem(KEY, 'off')
  singleKeys.set(isOn)
}

export const useSingleKeys = (): boolean => useFollowed(singleKeys)
