import { useState } from 'react'
import { Button } from '../parts/form/button.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { prepareReport } from './prepare.ts'
import type { ReportLine } from './report-shapes.ts'

/** When the letter was prepared, and what was wrong with it then. */
export function PreparedNote({ line, week }: { readonly line: ReportLine; readonly week: string }) {
  const when = useWhen()
  if (line.prepared === null) return null
  const { at, problems } = line.prepared
  if (problems.length === 0) {
    return (
      <p className="small quiet">
        Prepared {when.dayAndTime(at)}: it prints, and the file of every photo is there.
      </p>
    )
  }
  return (
    <Notice kind="held">
      <p className="strong">Prepared {when.dayAndTime(at)}: it cannot go out like this</p>
      {problems.map((words) => (
        <p key={words}>{words}</p>
      ))}
      <PrepareAgain line={line} week={week} />
    </Notice>
  )
}

/** Once it is put right; the note changes with what the host finds. */
function PrepareAgain({ line, week }: { readonly line: ReportLine; readonly week: string }) {
  const [isBusy, setIsBusy] = useState(false)
  const [problem, setProblem] = useState<string | null>(null)
  const prepare = async () => {
    setIsBusy(true)
    const { isDone, problems } = await prepareReport(line, week)
    setIsBusy(false)
    setProblem(isDone ? null : problems.join(' '))
  }
  return (
    <>
      {problem !== null && <p role="alert">{problem}</p>}
      <Button onClick={() => void prepare()} aria-busy={isBusy} aria-disabled={isBusy}>
        {isBusy ? 'Printing it…' : 'Prepare it again'}
      </Button>
    </>
  )
}
