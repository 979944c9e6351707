import { useRef, useState } from 'react'
import type { ReportLine } from './report-shapes.ts'

/** What became of one report: sentences where something is wrong; no further one is begun where it would be in vain. */
export interface BatchAnswer {
  readonly isDone: boolean
  readonly problems: readonly string[]
  readonly isInVain: boolean
}

export interface Troubled {
  readonly line: ReportLine
  readonly problems: readonly string[]
}

export type BatchState =
  | { readonly is: 'asking' }
  | {
      readonly is: 'at work'
      /** Those that were begun before. */
      readonly past: number
      readonly now: string
      /** Null until one has shown how long they take. */
      readonly leftMs: number | null
      readonly isStopping: boolean
    }
  | { readonly is: 'ended'; readonly done: number; readonly troubled: readonly Troubled[] }

/** Reports one after the other; it can be stopped between two, so that none is left half done. */
export function useBatch(
  lines: readonly ReportLine[],
  work: (line: ReportLine) => Promise<BatchAnswer>,
): { readonly state: BatchState; readonly begin: () => void; readonly stop: () => void } {
  // The list as it was asked for: while reports go out, the view behind it grows shorter.
  const [wanted] = useState(lines)
  const [state, setState] = useState<BatchState>({ is: 'asking' })
  const isStopped = useRef(false)

  const run = async () => {
    const began = Date.now()
    const troubled: Troubled[] = []
    let done = 0
    for (const [past, line] of wanted.entries()) {
      if (isStopped.current) break
      const leftMs = past === 0 ? null : ((Date.now() - began) / past) * (wanted.length - past)
      setState({ is: 'at work', past, now: line.carName, leftMs, isStopping: false })
      const { isDone, problems, isInVain } = await work(line)
      if (isDone) done += 1
      if (problems.length > 0) troubled.push({ line, problems })
      if (isInVain) break
    }
    setState({ is: 'ended', done, troubled })
  }
  const stop = () => {
    isStopped.current = true
    setState((before) => (before.is === 'at work' ? { ...before, isStopping: true } : before))
  }
  return { state, begin: () => void run(), stop }
}
