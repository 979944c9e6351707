import type { ReactNode } from 'react'
import { Button as AriaButton } from 'react-aria-components/Button'
import { Menu as AriaMenu, MenuItem, MenuTrigger } from 'react-aria-components/Menu'
import { Popover } from 'react-aria-components/Popover'

export interface MenuEntry {
  readonly id: string
  readonly words: string
  readonly onChoose: () => void
  readonly isDisabled?: boolean
}

/** Lesser actions behind one button. */
export function Menu({
  label,
  entries,
  className = 'button plain',
}: {
  readonly label: ReactNode
  readonly entries: readonly MenuEntry[]
  readonly className?: string
}) {
  return (
    <MenuTrigger>
      <AriaButton className={className}>{label}</AriaButton>
      <Popover className="menu" placement="bottom end">
        <AriaMenu
          disabledKeys={entries.filter((entry) => entry.isDisabled === true).map((entry) => entry.id)}
          onAction={(key) => entries.find((entry) => entry.id === key)?.onChoose()}
        >
          {entries.map((entry) => (
            <MenuItem key={entry.id} id={entry.id} textValue={entry.words}>
              {entry.words}
            </MenuItem>
          ))}
        </AriaMenu>
      </Popover>
    </MenuTrigger>
  )
}
