import { useQuery } from '@tanstack/react-query'
import type { PartyId, PersonId } from '../../domain/ids.ts'
import { joinWords, plural } from '../../domain/text/words.ts'
import { api, queryClient } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import styles from './contacts.module.css'
import type { Erasing } from './workshop-shapes.ts'

/** Who may be erased: a person who has left, or somebody outside the workshop. */
export interface ToErase {
  readonly id: PersonId | PartyId
  readonly name: string
  readonly isPerson: boolean
}

/** Says what goes and what stays before a contact is erased for good by a manager's code. */
export function EraseDialog({
  contact,
  onClose,
}: {
  readonly contact: ToErase
  readonly onClose: () => void
}) {
  const { id, name } = contact
  const command = useCommand()
  const query = useQuery(api.erasing.queryOptions({ id }))
  const erase = async () => {
    const outcome = await command.send({
      kind: 'eraseContact',
      carId: null,
      payload: { id },
      sign: {
        title: `Erase ${name} for good`,
        says: ['Name, phone, e-mail and address go. Nobody can bring them back.'],
        confirm: 'Erase for good',
      },
    })
    if (!isSettled(outcome)) return
    await queryClient.invalidateQueries({ queryKey: api.erased.queryKey() })
    onClose()
  }
  return (
    <Dialog title={`Erase ${name} for good?`} isOpen onClose={onClose}>
      <Loaded query={query}>
        {(erasing) => (
          <div className="stack">
            {erasing.refusal === null ? (
              <WhatStays contact={contact} erasing={erasing} />
            ) : (
              <RefusalNote refusal={erasing.refusal} />
            )}
            <RefusalNote refusal={command.refusal} />
            <div className="button-row end">
              <Button onClick={onClose}>Keep the contact</Button>
              {erasing.refusal === null && (
                <Button kind="warn" onClick={() => void erase()}>
                  Erase for good …
                </Button>
              )}
            </div>
          </div>
        )}
      </Loaded>
    </Dialog>
  )
}

function WhatStays({ contact, erasing }: { readonly contact: ToErase; readonly erasing: Erasing }) {
  return (
    <>
      <section className="stack-tight">
        <h3>What goes</h3>
        <p>
          Name, phone, e-mail and address, out of the contact book and every byte of its file. They cannot be
          brought back.
        </p>
      </section>
      <section className="stack-tight">
        <h3>What stays, and where</h3>
        <ul className={styles.stays}>
          <li>{recordWords(contact, erasing)}</li>
          <li>{reportWords(contact, erasing)}</li>
          <li>{typedWords(contact, erasing)}</li>
          <li>
            Copies that were made before hold the name on their disk until they thin out, and one a month
            stays. Whichever is restored, the name is erased again.
          </li>
        </ul>
      </section>
    </>
  )
}

function recordWords({ isPerson }: ToErase, { cars }: Erasing): string {
  if (isPerson) return 'Signatures, hours and all that was recorded stay; they say ‘(name erased)’.'
  if (cars.length === 0) return 'No car stands in the name of this contact now.'
  return `The record of ${joinWords([...new Set(cars)])}: work, hours, photos and figures. It says ‘(name erased)’.`
}

const BY_LAW =
  'They are business records that a workshop must keep for some years by law: check the rules of your country.'

function reportWords({ isPerson }: ToErase, { reports }: Erasing): string {
  if (isPerson)
    return `Issued owner reports that name this person, in the data folder under ‘reports’. ${BY_LAW}`
  const letters = 'letters that were printed or sent'
  return reports === 0
    ? `Any ${letters} name this contact; Panelwright keeps none of them. ${BY_LAW}`
    : `${plural('issued owner report', reports)}, in the data folder under ‘reports’, and any ${letters}: they name this contact. ${BY_LAW}`
}

function typedWords({ name, isPerson }: ToErase, { typed }: Erasing): string {
  return isPerson || typed === 0
    ? 'What somebody typed as a note, a car’s name or a draft stays as it was typed.'
    : `‘${name}’ as somebody typed it, in ${plural('line of the record or draft', typed, 'lines of the record or drafts')}: what was recorded cannot be changed.`
}
