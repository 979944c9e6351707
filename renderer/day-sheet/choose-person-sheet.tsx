import { Link } from '@tanstack/react-router'
import { useActor } from '../parts/sign/actor.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { ScreenHead } from '../parts/frame/screen-head.tsx'
import styles from './day-sheet.module.css'

/** Who is at this device? One tap; no code, because nothing is signed by it. */
export function ChoosePersonSheet() {
  const { session, choosePerson } = useActor()
  const people = session.people.filter(({ active }) => active)
  return (
    <div className="stack">
      <ScreenHead title="Day sheet" below="Who are you? Your work, your clock and your hours follow." />
      {people.length === 0 && (
        <EmptyState
          title="Nobody is entered yet"
          action={
            <Link to="/workshop" className="button main">
              Enter the people
            </Link>
          }
        >
          The manager enters the people with their skills; each then finds their own day here.
        </EmptyState>
      )}
      <ul className={styles.people}>
        {people.map(({ id, name, skills }) => (
          <li key={id}>
            <button type="button" className={styles.person} onClick={() => choosePerson(id)}>
              <span className="strong">{name}</span>
              <span className="small quiet">{skills.join(', ')}</span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  )
}
