import type { SessionView } from '../../client.ts'
import { Button } from '../form/button.tsx'
import styles from './no-codes-yet.module.css'
import { Notice } from '../form/notice.tsx'

export const NO_CODES =
  'This workshop was taken in or restored here, and codes do not leave the computer that they were set on.'
const HERE = 'A manager chooses one here, then sets those of the others in Workshop, under People.'
export const ELSEWHERE = 'A manager chooses one on the computer that Panelwright runs on, in its own window.'

/** Says why nobody can sign in a workshop that was taken in, until a manager has chosen a code. */
export function NoCodesYet({
  session,
  onChoose,
}: {
  readonly session: SessionView
  readonly onChoose: () => void
}) {
  if (session.hasManagerCode) return null
  return (
    <div className={styles.missing}>
      <Notice kind="caution">
        <p className="strong">No manager has a code on this computer yet.</p>
        <p>
          {NO_CODES} {session.isHostsOwn ? HERE : ELSEWHERE}
        </p>
        {session.isHostsOwn && (
          <div className="button-row">
            <Button kind="main" onClick={onChoose}>
              Manager: choose a code
            </Button>
          </div>
        )}
      </Notice>
    </div>
  )
}
