import { useState, type ReactNode } from 'react'
import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { Notice } from '../parts/form/notice.tsx'
import type { ReportLine } from './report-shapes.ts'
import { type BatchAnswer, type BatchState, type Troubled, useBatch } from './use-batch.ts'
import { timeLeftWords } from '../parts/frame/time-left.ts'

interface Props {
  readonly title: string
  readonly lines: readonly ReportLine[]
  /** Said of one car before it begins. */
  readonly noteOf: (line: ReportLine) => string
  readonly explains: string
  /** Words of the main button, before 'n reports'. */
  readonly verb: string
  /** 'issued': what has become of them. */
  readonly past: string
  readonly work: (line: ReportLine) => Promise<BatchAnswer>
  readonly onClose: () => void
}

/** All reports of a list in turn: what is going to happen, how far it is, what became of it. */
export function BatchDialog({ title, lines, noteOf, explains, verb, past, work, onClose }: Props) {
  const [count] = useState(lines.length)
  const { state, begin, stop } = useBatch(lines, work)
  const close = () => {
    stop()
    onClose()
  }
  return (
    <Dialog title={title} isOpen onClose={close}>
      {state.is === 'asking' && (
        <>
          <ul className="lines">
            {lines.map((line) => (
              <li key={line.visitId} className="line">
                <span>
                  <span className="strong">{line.carName}</span>, {line.owner}
                </span>
                <span className="small quiet">{noteOf(line)}</span>
              </li>
            ))}
          </ul>
          <p className="quiet">{explains}</p>
          <Row>
            <Button onClick={close}>Cancel</Button>
            <Button kind="main" onClick={begin}>
              {verb} {plural('report', count)}
            </Button>
          </Row>
        </>
      )}
      {state.is === 'at work' && (
        <Progress state={state} count={count} what={`Reports ${past}`} onStop={stop} />
      )}
      {state.is === 'ended' && (
        <>
          <Notice kind={state.done > 0 ? 'done' : 'plain'}>
            {state.done} of {plural('report', count)} {past}.
          </Notice>
          {state.troubled.map((each) => (
            <Trouble key={each.line.visitId} {...each} />
          ))}
          <Row>
            <Button kind="main" onClick={close}>
              Close
            </Button>
          </Row>
        </>
      )}
    </Dialog>
  )
}

function Progress({
  state: { past, now, leftMs, isStopping },
  count,
  what,
  onStop,
}: {
  readonly state: Extract<BatchState, { is: 'at work' }>
  readonly count: number
  readonly what: string
  readonly onStop: () => void
}) {
  return (
    <div className="stack" role="status">
      <progress className="progress" max={count} value={past} aria-label={what} />
      <p>
        {now}: report {past + 1} of {count}
        {leftMs !== null && `, ${timeLeftWords(leftMs)}`}
      </p>
      <Row>
        <Button onClick={onStop} aria-disabled={isStopping}>
          {isStopping ? 'Stopping after this one…' : 'Stop after this one'}
        </Button>
      </Row>
    </div>
  )
}

function Trouble({ line, problems }: Troubled) {
  return (
    <Notice kind="refused">
      <p className="strong">{line.carName}</p>
      {problems.map((words) => (
        <p key={words}>{words}</p>
      ))}
    </Notice>
  )
}

const Row = ({ children }: { readonly children: ReactNode }) => (
  <div className="button-row end">{children}</div>
)
