import { useSyncExternalStore } from 'react'

const KEY = 'panelwright-single-keys'
const listeners = new Set<() => void>()

/** Whether keys without Ctrl or Alt do something on this device. */
export const hasSingleKeys = (): boolean => localStorage.getItem(KEY) !== 'off'

export function setSingleKeys(isOn: boolean): void {
  if (isOn) localStorage.removeItem(KEY)
  else localStorage.setItem(KEY, 'off')
  for (const listener of listeners) listener()
}

export const useSingleKeys = (): boolean => useSyncExternalStore(follow, hasSingleKeys)

function follow(listener: () => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}
