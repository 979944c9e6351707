import { useMemo, useState } from 'react'
import { WordButton } from '../parts/form/button.tsx'
import { Menu } from '../parts/form/menu.tsx'
import { ManagersOnly } from '../parts/frame/managers-only.tsx'
import { SteppedList } from '../parts/frame/stepped-list.tsx'
import { ContactDialog } from './contact-dialog.tsx'
import styles from './contacts.module.css'
import { EraseDialog, type ToErase } from './erase-dialog.tsx'
import { ErasedContacts, PeopleWhoLeft } from './erased-contacts.tsx'
import type { Workshop, WorkshopParty } from './workshop-shapes.ts'

/** Whom Find does not find by name is looked for in the alphabet. */
const SHOWN_AT_ONCE = 60

type Kind = WorkshopParty['kind']
type Doing = { readonly party: WorkshopParty | null; readonly kind: Kind }

const KINDS: readonly { readonly kind: Kind; readonly title: string; readonly none: string }[] = [
  { kind: 'owner', title: 'Owners', none: 'Owners are added with their car, or here.' },
  { kind: 'insurer', title: 'Insurers', none: 'An insurer may pay for some of the work on a car.' },
  { kind: 'firm', title: 'Firms', none: 'Where shells are sent: blasting, dipping, plating.' },
]

/** Everybody outside the workshop: owners, insurers, and firms that shells are sent to. */
export function ContactsSheet({ view }: { readonly view: Workshop }) {
  return (
    <ManagersOnly
      title="Contacts are shown to managers only"
      why="Names, phones and addresses of owners stand here once you have given your code on this device."
    >
      <Contacts view={view} />
    </ManagersOnly>
  )
}

function Contacts({ view }: { readonly view: Workshop }) {
  const [doing, setDoing] = useState<Doing | null>(null)
  const [toErase, setToErase] = useState<ToErase | null>(null)
  const ofKind = useMemo(() => partiesByKind(view.parties), [view.parties])
  return (
    <div className={styles.groups}>
      {KINDS.map(({ kind, title, none }) => {
        const parties = ofKind[kind]
        return (
          <section key={kind} className="stack-tight">
            <div className="spread">
              <h2>{title}</h2>
              <WordButton onClick={() => setDoing({ party: null, kind })}>add {ADD[kind]}</WordButton>
            </div>
            {parties.length === 0 && <p className="quiet">{none}</p>}
            <SteppedList items={parties} step={SHOWN_AT_ONCE} title={title} className="lines">
              {(party) => (
                <Entry
                  key={party.id}
                  party={party}
                  onChange={() => setDoing({ party, kind })}
                  onErase={() => setToErase({ id: party.id, name: party.name, isPerson: false })}
                />
              )}
            </SteppedList>
          </section>
        )
      })}
      <PeopleWhoLeft view={view} onErase={setToErase} />
      <ErasedContacts />
      {toErase !== null && <EraseDialog contact={toErase} onClose={() => setToErase(null)} />}
      {doing !== null && (
        <ContactDialog
          party={doing.party}
          kind={doing.kind}
          title={doing.party?.name ?? `Add ${ADD[doing.kind]}`}
          onClose={() => setDoing(null)}
        />
      )}
    </div>
  )
}

function partiesByKind(parties: readonly WorkshopParty[]): Readonly<Record<Kind, readonly WorkshopParty[]>> {
  const byName = parties.toSorted((a, b) => ALPHABET.compare(a.name, b.name))
  const of = (kind: Kind) => byName.filter((party) => party.kind === kind)
  return { owner: of('owner'), insurer: of('insurer'), firm: of('firm') }
}

/** Made once: String.localeCompare looks its language up for each pair of names. */
const ALPHABET = new Intl.Collator()

const ADD: Readonly<Record<Kind, string>> = { owner: 'an owner', insurer: 'an insurer', firm: 'a firm' }

function Entry({
  party,
  onChange,
  onErase,
}: {
  readonly party: WorkshopParty
  readonly onChange: () => void
  readonly onErase: () => void
}) {
  const { contact } = party
  return (
    <li className="line">
      <span className={styles.entry}>
        <span className="strong">{party.name}</span>
        {contact !== null && contact.phone !== '' && (
          <a className="small" href={`tel:${contact.phone.replaceAll(/[^\d+]/g, '')}`}>
            {contact.phone}
          </a>
        )}
        {contact !== null && contact.email !== '' && (
          <a className="small" href={`mailto:${contact.email}`}>
            {contact.email}
          </a>
        )}
        {contact !== null && contact.address !== '' && <span className="small quiet">{contact.address}</span>}
      </span>
      <span className={styles.acts}>
        <WordButton onClick={onChange}>
          change<span className="hidden-word"> {party.name}</span>
        </WordButton>
        <Menu
          className="word-button quiet"
          label={
            <>
              more<span className="hidden-word"> about {party.name}</span>
            </>
          }
          entries={[{ id: 'erase', words: 'Erase for good …', onChoose: onErase }]}
        />
      </span>
    </li>
  )
}
