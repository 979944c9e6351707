import { useFrameSheets } from '../parts/frame/frame-sheets.ts'
import { keyName } from '../keys/key-names.ts'

/** Opens the search; looks like the field that it leads to. */
export function FindButton() {
  const openSheet = useFrameSheets()
  return (
    <button
      type="button"
      className="find-button"
      aria-keyshortcuts="Control+K"
      onClick={() => openSheet('find')}
    >
      <span>Find</span>
      <kbd aria-hidden="true">{keyName('Mod+K')}</kbd>
    </button>
  )
}
