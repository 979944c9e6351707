import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { useState } from 'react'
import { capital, plural, weekWords } from '../../domain/text/words.ts'
import { isoWeekDates, parseIsoWeek } from '../../domain/time/iso-week.ts'
import { api } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { type Figure, ScreenHead } from '../parts/frame/screen-head.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { IssueAllDialog } from './issue-all-dialog.tsx'
import styles from './owner-reports.module.css'
import { PrepareAllDialog } from './prepare-all-dialog.tsx'
import { ReportDesk } from './report-desk.tsx'
import { ReportList } from './report-list.tsx'
import { type ReportsView, useDrafts } from './report-shapes.ts'
import { WeekChooser } from './week-chooser.tsx'
import { WeeklyLine } from './weekly-line.tsx'

/** The letters of one week to all owners: read, put into the manager's own words, issued. */
export function OwnerReportsScreen() {
  const when = useWhen()
  const { week: asked } = useSearch({ from: '/owner-reports' })
  const parsed = parseIsoWeek(asked ?? when.thisWeek)
  const week = parsed.ok && asked !== undefined ? asked : when.thisWeek
  const query = useQuery(api.ownerReports.queryOptions({ week }))
  return <Loaded query={query}>{(view) => <OwnerReports key={view.week} view={view} />}</Loaded>
}

function OwnerReports({ view }: { readonly view: ReportsView }) {
  const when = useWhen()
  const { manager, askManager } = useActor()
  const { visit } = useSearch({ from: '/owner-reports' })
  const drafts = useDrafts()
  const [doing, setDoing] = useState<'prepare' | 'issue' | null>(null)
  const chosen = view.reports.find(({ visitId }) => visitId === visit) ?? view.reports[0]
  const notIssued = view.reports.filter(({ issued }) => issued.length === 0)
  const open = async (all: 'prepare' | 'issue') => {
    if ((await askManager()) !== null) setDoing(all)
  }
  const close = () => setDoing(null)
  return (
    <div className="stack">
      <ScreenHead title="Owner reports" below={weekLine(view.week, when.today)} figures={figuresOf(view)} />
      <div className="spread">
        <WeekChooser view={view} />
        {notIssued.length > 0 && (
          <div className="button-row">
            <Button onClick={() => void open('prepare')}>
              {notIssued.length === 1 ? 'Prepare the one that is left' : `Prepare all ${notIssued.length}`}
            </Button>
            <Button kind={manager === null ? 'plain' : 'main'} onClick={() => void open('issue')}>
              {notIssued.length === 1 ? 'Issue the one that is left' : `Issue all ${notIssued.length}`}
            </Button>
          </div>
        )}
      </div>
      <WeeklyLine settings={view.settings} />
      {chosen === undefined ? (
        <NoReports />
      ) : (
        <div className={styles.page} data-chosen={visit !== undefined}>
          <ReportList view={view} chosen={chosen} drafts={drafts} />
          <ReportDesk key={chosen.visitId} view={view} line={chosen} drafts={drafts} />
        </div>
      )}
      {doing === 'prepare' && <PrepareAllDialog view={view} lines={notIssued} onClose={close} />}
      {doing === 'issue' && <IssueAllDialog view={view} lines={notIssued} drafts={drafts} onClose={close} />}
    </div>
  )
}

function NoReports() {
  return (
    <EmptyState
      title="Nobody to write to in this week"
      action={
        <Link to="/cars" className="button">
          The cars
        </Link>
      }
    >
      Every car whose visit is agreed and not yet delivered gets one letter a week: what was found, what was
      done, the hours, and what comes next. It is written from what the workshop has recorded.
    </EmptyState>
  )
}

function weekLine(text: string, today: string): string {
  const week = parseIsoWeek(text)
  if (!week.ok) return text
  const dates = isoWeekDates(week.value)
  const isOver = (dates[6] ?? '') < today
  const isGoingOn = !isOver && (dates[0] ?? '') <= today
  const year = Number(today.slice(0, 4))
  const state = isGoingOn ? ', still going on' : isOver ? '' : ', not begun'
  return `${capital(weekWords(week.value, year))}, Monday to Sunday${state}`
}

function figuresOf({ reports }: ReportsView): readonly Figure[] {
  const issued = reports.filter((line) => line.issued.length > 0).length
  const open = reports.length - issued
  return [
    { label: 'issued', value: `${issued} of ${reports.length}` },
    {
      label: 'not issued',
      value: open === 0 ? 'none' : plural('report', open),
      ...(open > 0 && { tone: 'accent' }),
    },
  ]
}
