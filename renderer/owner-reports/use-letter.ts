import { keepPreviousData, useQuery } from '@tanstack/react-query'
import type { VisitId } from '../../domain/ids.ts'
import { client } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import type { ReportChoices } from '../../domain/report/report-choices.ts'
import { seeSessionEnd } from './report-trouble.ts'
import { answered } from '../parts/frame/answered.ts'
import { useQuiet } from '../parts/frame/use-quiet.ts'

/** Typing is given this time to pause before the letter is told anew. */
const PAUSE_MS = 400

/**
 * The letter as it would be issued now. The host keeps the draft with it, so that its printed preview says the same.
 * Asked only while a manager is signed in.
 */
export function useLetter(visitId: VisitId, week: string, choices: ReportChoices) {
  const { manager } = useActor()
  const settled = useQuiet(choices, PAUSE_MS)
  return useQuery({
    queryKey: [['letter'], { input: { visitId, week, settled } }],
    queryFn: async () => {
      const answer = await answered(() => client.draftReport.mutate({ visitId, week, choices: settled }))
      if (!answer.ok) seeSessionEnd(answer.refusal)
      return answer
    },
    enabled: manager !== null,
    placeholderData: keepPreviousData,
  })
}
