import { useState } from 'react'
import type { ReportSettings } from '../../domain/facts/reports-facts.ts'
import { weekdaysWords } from '../../domain/text/words.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { WordButton } from '../parts/form/button.tsx'
import { WeeklyDialog } from './weekly-dialog.tsx'
import styles from './owner-reports.module.css'

/** When reports are prepared by themselves; a tap changes it. */
export function WeeklyLine({ settings }: { readonly settings: ReportSettings }) {
  const { askManager } = useActor()
  const [isOpen, setIsOpen] = useState(false)
  const { weekly } = settings
  return (
    <div className={styles.weekly}>
      <span className="quiet">
        {weekly === null
          ? 'Reports are prepared by hand only.'
          : `Reports are prepared each ${weekdaysWords([weekly.weekday])} at ${weekly.time}.`}
      </span>
      <WordButton onClick={() => void askManager().then((manager) => manager !== null && setIsOpen(true))}>
        {weekly === null ? 'Set a day and hour' : 'Change'}
      </WordButton>
      {isOpen && <WeeklyDialog settings={settings} onClose={() => setIsOpen(false)} />}
    </div>
  )
}
