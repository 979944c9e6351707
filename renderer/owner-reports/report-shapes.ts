import { useCallback, useMemo, useState } from 'react'
import type { VisitId } from '../../domain/ids.ts'
import { isSameChoices, type ReportChoices } from '../../domain/report/report-choices.ts'
import type { client } from '../client.ts'

export type ReportsView = Awaited<ReturnType<typeof client.ownerReports.query>>
export type ReportLine = ReportsView['reports'][number]
export type IssuedLine = ReportLine['issued'][number]

export interface Drafts {
  readonly of: (line: ReportLine) => ReportChoices
  readonly change: (line: ReportLine, change: Partial<ReportChoices>) => void
  /** Once it is issued. */
  readonly forget: (visitId: VisitId) => void
}

/** Drafts of one week: what was changed here, else what the host keeps from another device or an earlier visit. */
export function useDrafts(): Drafts {
  const [changed, setChanged] = useState<ReadonlyMap<VisitId, ReportChoices>>(new Map())
  const of = useCallback(
    ({ visitId, draft, start }: ReportLine): ReportChoices => changed.get(visitId) ?? draft ?? start,
    [changed],
  )
  return useMemo(
    () => ({
      of,
      change: (line, change) =>
        setChanged((before) => new Map(before).set(line.visitId, { ...of(line), ...change })),
      forget: (visitId) =>
        setChanged((before) => new Map([...before].filter(([changedId]) => changedId !== visitId))),
    }),
    [of],
  )
}

/** True when the manager has chosen anything of their own since the report was begun. */
export const isOwn = (choices: ReportChoices, { start }: ReportLine): boolean =>
  !isSameChoices(choices, start)
