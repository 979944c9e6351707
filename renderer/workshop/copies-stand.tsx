import type { ReactNode } from 'react'
import type { CopySchedule } from '../../domain/copies/copy-schedule.ts'
import { plural } from '../../domain/text/words.ts'
import { Notice } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './copies.module.css'
import type { CopiesState } from './workshop-shapes.ts'

/** When the last good copy was made, where copies go and when, and what was wrong with the last one. */
export function CopiesStand({ state: { set, record, warning, unlisted } }: { readonly state: CopiesState }) {
  const when = useWhen()
  const { good, tried } = record
  return (
    <section className="stack-tight">
      <h2>Copies of everything</h2>
      {warning !== null && (
        <Notice kind="caution">
          <p className="strong">{warning.message}</p>
          {set === null && <p>Choose a folder on a disk that is not this computer’s own.</p>}
        </Notice>
      )}
      {tried !== null && tried.problem !== null && (
        <Notice kind="refused">
          <p className="strong">The copy of {when.dayAndTime(tried.at)} was not made.</p>
          <p>{tried.problem}</p>
        </Notice>
      )}
      {unlisted !== null && <Notice kind="caution">{unlisted}</Notice>}
      {tried?.warnings.map((words) => (
        <Notice key={words} kind="held">
          {words}
        </Notice>
      ))}
      <dl className={styles.facts}>
        <Fact name="Last good copy">
          {good === null ? 'none yet' : `${when.dayAndTime(good.at)}, verified`}
        </Fact>
        {set !== null && (
          <>
            <Fact name="Goes to">{set.folder}</Fact>
            <Fact name="Made">{scheduleWords(set.schedule)}</Fact>
            <Fact name="Warned of">
              when the last good one is older than {plural('day', set.warnAfterDays)}
            </Fact>
            <Fact name="Sealed">
              {set.isSealed ? 'with a passphrase' : 'no: whoever has the disk can read it'}
            </Fact>
          </>
        )}
      </dl>
    </section>
  )
}

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}

function scheduleWords(schedule: CopySchedule | null): string {
  if (schedule === null) return 'by hand only'
  if (schedule.every === 'day')
    return `every day at ${schedule.time}, and later where the computer was off then`
  return `every ${schedule.hours === 1 ? 'hour' : plural('hour', schedule.hours)} while Panelwright runs`
}
