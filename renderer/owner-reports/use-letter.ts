import { keepPreviousData, useQuery } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import type { VisitId } from '../../domain/ids.ts'
import { client } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import type { ReportChoices } from '../../domain/report/report-choices.ts'
import { seeSessionEnd } from './report-trouble.ts'

/** Typing is given this time to pause before the letter is told anew. */
const PAUSE_MS = 400

/**
 * The letter as it would be issued now. The host keeps the draft with it, so that its printed preview says the same.
 * Asked only while a manager is signed in.
 */
export function useLetter(visitId: VisitId, week: string, choices: ReportChoices) {
  const { manager } = useActor()
  const settled = useSettled(choices)
  return useQuery({
    queryKey: [['letter'], { input: { visitId, week, settled } }],
    queryFn: async () => {
      const answer = await client.draftReport.mutate({ visitId, week, choices: settled })
      if (!answer.ok) seeSessionEnd(answer.refusal)
      return answer
    },
    enabled: manager !== null,
    placeholderData: keepPreviousData,
  })
}

/** The draft once nothing has been typed for a moment. */
function useSettled(draft: ReportChoices): ReportChoices {
  const [settled, setSettled] = useState(draft)
  useEffect(() => {
    const timer = setTimeout(() => setSettled(draft), PAUSE_MS)
    return () => clearTimeout(timer)
  }, [draft])
  return settled
}
