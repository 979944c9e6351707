import { Notice } from '../parts/notice.tsx'
import { useWhen } from '../parts/when.tsx'
import type { ReportLine } from './report-shapes.ts'

/** When the letter was prepared, and what was wrong with it then. */
export function PreparedNote({ prepared }: { readonly prepared: ReportLine['prepared'] }) {
  const when = useWhen()
  if (prepared === null) return null
  const at = when.dayAndTime(prepared.at)
  if (prepared.problems.length === 0) {
    return <p className="small quiet">Prepared {at}: it prints, and the file of every photo is there.</p>
  }
  return (
    <Notice kind="held">
      <p className="strong">Prepared {at}: it cannot go out like this</p>
      {prepared.problems.map((words) => (
        <p key={words}>{words}</p>
      ))}
    </Notice>
  )
}
