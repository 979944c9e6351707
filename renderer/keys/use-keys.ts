import { useEffect, useEffectEvent } from 'react'
import { isMac, isOwnWindow } from './key-names.ts'
import { hasSingleKeys } from './single-keys.ts'
import { keyAct, type KeyAct } from './key-act.ts'

/** Listens to the keys that work everywhere: not over an open sheet or menu, nor where what has the focus took the key. */
export function useKeys(onAct: (act: KeyAct) => void): void {
  const press = useEffectEvent((event: KeyboardEvent) => {
    if (event.defaultPrevented || event.isComposing || event.repeat || isCovered()) return
    const act = keyAct(event, {
      isMac,
      isOwnWindow: isOwnWindow(),
      hasSingleKeys: hasSingleKeys(),
      isTyping: isTyping(event.target),
    })
    if (act === null) return
    event.preventDefault()
    onAct(act)
  })
  useEffect(() => {
    const listen = (event: KeyboardEvent) => press(event)
    window.addEventListener('keydown', listen)
    return () => window.removeEventListener('keydown', listen)
  }, [])
}

const isCovered = (): boolean =>
  document.querySelector('[role=dialog], [role=alertdialog], [role=menu]') !== null

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable || target.closest('input, textarea, select, [role=listbox]') !== null)
