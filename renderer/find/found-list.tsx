import { Header, type Key, ListBox, ListBoxItem, ListBoxSection } from 'react-aria-components/ListBox'
import type { Found, FoundGroup, FoundKind } from '../../domain/views/find-shapes.ts'
import { photoUrl } from '../client.ts'
import { useWhen } from '../parts/frame/when.tsx'
import type { FoundScreen } from './found-screens.ts'
import { placeOf } from './place-of.ts'
import styles from './find.module.css'

const KIND_WORDS: Readonly<Record<FoundKind, string>> = {
  car: 'Cars',
  owner: 'Owners and firms',
  repair: 'Repairs',
  photo: 'Photos',
  note: 'Notes',
}

/** What was found by kinds, each line leading to its place; the keys of the field above go through it. */
export function FoundList({
  screens,
  groups,
  onOpen,
}: {
  readonly screens: readonly FoundScreen[]
  readonly groups: readonly FoundGroup[]
  readonly onOpen: (place: string) => void
}) {
  const open = (key: Key) => onOpen(String(key).replace(/^[^ ]* /, ''))
  return (
    <ListBox aria-label="Found" className={styles.list ?? ''} selectionMode="none" onAction={open}>
      {groups.map((group) => (
        <ListBoxSection key={group.kind} id={group.kind} className={styles.group ?? ''}>
          <Header className={styles.kind}>{headOf(group)}</Header>
          {group.found.map((found) => (
            <FoundLine key={found.id} kind={group.kind} found={found} />
          ))}
        </ListBoxSection>
      ))}
      {screens.length > 0 && (
        <ListBoxSection id="screens" className={styles.group ?? ''}>
          <Header className={styles.kind}>Screens</Header>
          {screens.map(({ to, sheet, words }) => (
            <ListBoxItem
              key={words}
              id={`screen ${to}${sheet === null ? '' : `?sheet=${sheet}`}`}
              textValue={words}
              className={styles.line ?? ''}
            >
              <span>{words}</span>
            </ListBoxItem>
          ))}
        </ListBoxSection>
      )}
    </ListBox>
  )
}

function FoundLine({ kind, found }: { readonly kind: FoundKind; readonly found: Found }) {
  const when = useWhen()
  const { id, words, beside, at, sha256 } = found
  return (
    <ListBoxItem
      id={`${kind}-${id.replaceAll(' ', '-')} ${placeOf(found)}`}
      textValue={words}
      className={styles.line ?? ''}
    >
      {sha256 !== null && (
        <img
          className={`photo-small ${styles.thumb}`}
          src={photoUrl(sha256, 'thumb')}
          alt=""
          width={64}
          height={48}
        />
      )}
      <span className={styles.words}>{words}</span>
      <span className={styles.beside}>
        {at === null ? beside : [beside, when.day(at)].filter((part) => part !== '').join(', ')}
      </span>
    </ListBoxItem>
  )
}

const headOf = ({ kind, more, isAtLeast }: FoundGroup): string =>
  more === 0 ? KIND_WORDS[kind] : `${KIND_WORDS[kind]}, and ${isAtLeast ? `more than ${more}` : more} more`
