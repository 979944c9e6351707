import { useCallback, useMemo, useState } from 'react'
import type { AttachmentId, VisitId } from '../../domain/ids.ts'
import type { client } from '../client.ts'

export type ReportsView = Awaited<ReturnType<typeof client.ownerReports.query>>
export type ReportLine = ReportsView['reports'][number]
export type IssuedLine = ReportLine['issued'][number]

/** What the manager adds to a letter before it is issued. */
export interface Draft {
  readonly words: string
  /** Null leaves the choice to the report. */
  readonly photos: readonly AttachmentId[] | null
}

export interface Drafts {
  readonly of: (visitId: VisitId) => Draft
  readonly change: (visitId: VisitId, change: Partial<Draft>) => void
  /** Once it is issued. */
  readonly forget: (visitId: VisitId) => void
}

const EMPTY: Draft = { words: '', photos: null }

/** Drafts of one week: what was written here, else what the host keeps from another device or an earlier visit. */
export function useDrafts(view: ReportsView): Drafts {
  const [written, setWritten] = useState<ReadonlyMap<VisitId, Draft>>(new Map())
  const of = useCallback(
    (visitId: VisitId): Draft =>
      written.get(visitId) ?? view.reports.find((line) => line.visitId === visitId)?.draft ?? EMPTY,
    [view, written],
  )
  return useMemo(
    () => ({
      of,
      change: (visitId, change) =>
        setWritten((before) => new Map(before).set(visitId, { ...of(visitId), ...change })),
      forget: (visitId) => setWritten((before) => new Map(before).set(visitId, EMPTY)),
    }),
    [of],
  )
}

/** True when the manager has added anything of their own. */
export const isOwn = ({ words, photos }: Draft): boolean => words.trim() !== '' || photos !== null
