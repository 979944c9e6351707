import type { MenuItemConstructorOptions } from 'electron'
import type { OpenedWindow } from './desktop.ts'

/** Cut, copy and paste by the right mouse button: in what can be typed into, and copy where text is marked. */
export function offerTextMenu({ window, popUp }: OpenedWindow): void {
  window.webContents.on('context-menu', (_event, { isEditable, editFlags, selectionText }) => {
    if (isEditable) popUp(editingItems(editFlags))
    else if (selectionText.trim() !== '') popUp([{ role: 'copy' }])
  })
}

type Flags = Record<'canUndo' | 'canCut' | 'canCopy' | 'canPaste' | 'canSelectAll', boolean>

function editingItems(can: Flags): readonly MenuItemConstructorOptions[] {
  return [
    { role: 'undo', enabled: can.canUndo },
    { type: 'separator' },
    { role: 'cut', enabled: can.canCut },
    { role: 'copy', enabled: can.canCopy },
    { role: 'paste', enabled: can.canPaste },
    { type: 'separator' },
    { role: 'selectAll', enabled: can.canSelectAll },
  ]
}
