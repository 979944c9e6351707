import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { Refusal } from '../../domain/refusal.ts'
import { api, queryClient, sendWholeWorkshop } from '../client.ts'
import { FileField } from '../parts/form/file-field.tsx'
import { answered } from '../parts/frame/answered.ts'
import { RefusalNote } from '../parts/form/notice.tsx'
import { UnderWay } from '../parts/frame/under-way.tsx'

/** Takes in a workshop that was taken out elsewhere: all of it, verified, or nothing. */
export function TakeInChoice() {
  /** Of the bytes that have left; null when nothing is on its way. */
  const [share, setShare] = useState<number | null>(null)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const send = async (archive: File) => {
    setRefusal(null)
    setShare(0)
    const answer = await answered(() => sendWholeWorkshop(archive, setShare))
    setShare(null)
    if (answer.ok) await queryClient.invalidateQueries()
    else setRefusal(answer.refusal)
  }
  return (
    <>
      <p>
        From the archive that was saved in Workshop, under Take out: everything that was recorded there. Codes
        are not in it; a manager chooses a new one here.
      </p>
      <FileField
        label="The whole workshop, a .zip"
        accept=".zip,application/zip"
        isDisabled={share !== null}
        onPick={(archive) => void send(archive)}
      />
      {share !== null && <Going share={share} />}
      <RefusalNote refusal={refusal} />
    </>
  )
}

const ASK_AGAIN_MS = 1_000

function Going({ share }: { readonly share: number }) {
  const isSent = share >= 1
  const { data: step } = useQuery({
    ...api.takingIn.queryOptions(),
    enabled: isSent,
    refetchInterval: ASK_AGAIN_MS,
  })
  return (
    <UnderWay label="Taking the workshop in" done={share} of={isSent ? 0 : 1}>
      {isSent ? (step ?? 'Verifying it.') : 'Sending the archive.'}
    </UnderWay>
  )
}
