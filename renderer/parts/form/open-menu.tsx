import type { RefObject } from 'react'
import { Menu, MenuItem } from 'react-aria-components/Menu'
import { Popover } from 'react-aria-components/Popover'

export interface MenuEntry {
  readonly id: string
  readonly words: string
  readonly onChoose: () => void
  readonly isDisabled?: boolean
}

/** The entries of a menu beside its button. */
export function OpenMenu({
  button,
  buttonId,
  entries,
  focusOn,
  onClose,
}: {
  readonly button: RefObject<HTMLButtonElement | null>
  readonly buttonId: string
  readonly entries: readonly MenuEntry[]
  readonly focusOn: 'first' | 'last'
  readonly onClose: () => void
}) {
  return (
    <Popover
      className="menu"
      placement="bottom end"
      trigger="MenuTrigger"
      triggerRef={button}
      isOpen
      onOpenChange={onClose}
      aria-labelledby={buttonId}
    >
      <Menu
        // oxlint-disable-next-line jsx-a11y/no-autofocus -- An open menu holds the focus; its button gets it back.
        autoFocus={focusOn}
        aria-labelledby={buttonId}
        disabledKeys={entries.filter((entry) => entry.isDisabled === true).map((entry) => entry.id)}
        onAction={(key) => entries.find((entry) => entry.id === key)?.onChoose()}
        onClose={onClose}
      >
        {entries.map((entry) => (
          <MenuItem key={entry.id} id={entry.id} textValue={entry.words}>
            {entry.words}
          </MenuItem>
        ))}
      </Menu>
    </Popover>
  )
}
