import { useNavigate } from '@tanstack/react-router'
import { useId, useState } from 'react'
import { Autocomplete } from 'react-aria-components/Autocomplete'
import { Input } from 'react-aria-components/Input'
import { SearchField } from 'react-aria-components/SearchField'
import { MOST_LETTERS } from '../../domain/views/find-shapes.ts'
import { DialogSheet } from '../parts/form/dialog-sheet.tsx'
import { FoundList } from './found-list.tsx'
import { FoundNote } from './found-note.tsx'
import { foundScreens } from './found-screens.ts'
import { useFound } from './use-found.ts'
import styles from './find.module.css'

/** One search over the whole workshop, from any screen. */
export function FindDialog({ onClose }: { readonly onClose: () => void }) {
  const navigate = useNavigate()
  const [text, setText] = useState('')
  const found = useFound(text)
  const screens = foundScreens(text)
  const says = useId()
  const isListed = screens.length > 0 || (found.view?.groups.length ?? 0) > 0
  return (
    <DialogSheet title="Find" isOpen onClose={onClose}>
      <div className={styles.find}>
        <Autocomplete inputValue={text} onInputChange={setText}>
          {/* oxlint-disable-next-line jsx-a11y/no-autofocus -- whoever opens the search is about to type into it */}
          <SearchField aria-label="Find in the workshop" autoFocus>
            <Input
              className="input"
              // oxlint-disable-next-line jsx-a11y/role-has-required-aria-props -- Autocomplete says which list it controls
              role="combobox"
              aria-expanded={isListed}
              aria-describedby={says}
              maxLength={MOST_LETTERS}
              enterKeyHint="go"
              placeholder="Car, owner, repair, photo, note"
            />
          </SearchField>
          <FoundNote id={says} text={text} found={found} screens={screens.length} />
          <FoundList
            screens={screens}
            groups={found.view?.groups ?? []}
            onOpen={(place) => {
              onClose()
              void navigate({ to: place })
            }}
          />
        </Autocomplete>
      </div>
    </DialogSheet>
  )
}
