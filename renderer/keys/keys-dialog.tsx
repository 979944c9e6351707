import { useLocation } from '@tanstack/react-router'
import { DialogSheet } from '../parts/form/dialog-sheet.tsx'
import { KeyGroups } from './key-groups.tsx'
import { keyMapFor } from './keys.ts'

/** The keyboard map: what works everywhere, then what works on this screen. */
export function KeysDialog({ onClose }: { readonly onClose: () => void }) {
  const { pathname } = useLocation()
  return (
    <DialogSheet title="Keyboard map" isOpen onClose={onClose} size="wide">
      <KeyGroups groups={keyMapFor(pathname)} />
    </DialogSheet>
  )
}
