import { useRef, useState } from 'react'
import type { Refusal } from '../../domain/refusal.ts'
import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/button.tsx'
import { Dialog } from '../parts/dialog.tsx'
import { Notice, RefusalNote } from '../parts/notice.tsx'
import { createIssueIds, issueReport } from './issue.ts'
import { type Drafts, isOwn, type ReportLine, type ReportsView } from './report-shapes.ts'
import { isoWeekNumber } from './report-words.ts'

type State =
  | { readonly is: 'asking' }
  | { readonly is: 'issuing'; readonly done: number; readonly leftMs: number | null }
  | { readonly is: 'ended'; readonly done: number; readonly refused: Failed | null }

interface Failed {
  readonly line: ReportLine
  readonly refusal: Refusal
}

/** All letters of the week that have not gone out, one after the other; it can be stopped between two. */
export function IssueAllDialog({
  view,
  lines: wanted,
  drafts,
  onClose,
}: {
  readonly view: ReportsView
  readonly lines: readonly ReportLine[]
  readonly drafts: Drafts
  readonly onClose: () => void
}) {
  // The list as it was asked for: while reports go out, the view behind it grows shorter.
  const [orders] = useState(() => wanted.map((line) => ({ line, ids: createIssueIds() })))
  const [state, setState] = useState<State>({ is: 'asking' })
  const isStopped = useRef(false)

  const issueAll = async () => {
    const began = Date.now()
    let done = 0
    for (const { line, ids } of orders) {
      if (isStopped.current) break
      const leftMs = done === 0 ? null : ((Date.now() - began) / done) * (orders.length - done)
      setState({ is: 'issuing', done, leftMs })
      const refusal = await issueReport(line, view.week, drafts.of(line), ids)
      if (refusal !== null) return setState({ is: 'ended', done, refused: { line, refusal } })
      drafts.forget(line.visitId)
      done += 1
    }
    setState({ is: 'ended', done, refused: null })
  }
  const close = () => {
    isStopped.current = true
    onClose()
  }

  return (
    <Dialog title={`Issue all of ${isoWeekNumber(view.week)}`} isOpen onClose={close}>
      {state.is === 'asking' && (
        <>
          <ul className="lines">
            {orders.map(({ line }) => (
              <li key={line.visitId} className="line">
                <span>
                  <span className="strong">{line.carName}</span>, {line.owner}
                </span>
                <span className="small quiet">{isOwn(drafts.of(line), line) && 'own words or photos'}</span>
              </li>
            ))}
          </ul>
          <p className="quiet">
            Each is printed, kept and never changed afterwards. Sending them stays with you.
          </p>
          <div className="button-row end">
            <Button onClick={close}>Cancel</Button>
            <Button kind="main" onClick={() => void issueAll()}>
              Issue {plural('report', orders.length)}
            </Button>
          </div>
        </>
      )}
      {state.is === 'issuing' && (
        <Progress
          state={state}
          count={orders.length}
          now={orders[state.done]?.line.carName ?? ''}
          onStop={() => (isStopped.current = true)}
        />
      )}
      {state.is === 'ended' && (
        <>
          {state.refused !== null && (
            <>
              <p className="strong">{state.refused.line.carName}</p>
              <RefusalNote refusal={state.refused.refusal} />
            </>
          )}
          <Notice kind={state.done > 0 ? 'done' : 'plain'}>
            {state.done} of {plural('report', orders.length)} issued.
          </Notice>
          <div className="button-row end">
            <Button kind="main" onClick={close}>
              Close
            </Button>
          </div>
        </>
      )}
    </Dialog>
  )
}

function Progress({
  state: { done, leftMs },
  count,
  now,
  onStop,
}: {
  readonly state: Extract<State, { is: 'issuing' }>
  readonly count: number
  readonly now: string
  readonly onStop: () => void
}) {
  return (
    <div className="stack" role="status">
      <progress className="progress" max={count} value={done} aria-label="Reports issued" />
      <p>
        {now}: report {done + 1} of {count}
        {leftMs !== null && `, about ${Math.max(1, Math.ceil(leftMs / 1000))} s left`}
      </p>
      <div className="button-row end">
        <Button onClick={onStop}>Stop after this one</Button>
      </div>
    </div>
  )
}
