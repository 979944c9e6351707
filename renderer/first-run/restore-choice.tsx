import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { Refusal } from '../../domain/refusal.ts'
import { api, client, queryClient } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { TextInput } from '../parts/form/inputs.tsx'
import { answered } from '../parts/frame/answered.ts'
import { RefusalNote } from '../parts/form/notice.tsx'
import { FoundCopies } from './found-copies.tsx'
import type { Chosen, Found } from './restore-shapes.ts'
import { PlainForm } from '../parts/form/form.tsx'
import { UnderWay } from '../parts/frame/under-way.tsx'

/** Goes on from a copy of the workshop: all of it, verified, or nothing. */
export function RestoreChoice() {
  const [folder, setFolder] = useState('')
  const [found, setFound] = useState<Found | null>(null)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const [isRestoring, setIsRestoring] = useState(false)

  const look = async () => {
    setRefusal(null)
    setFound(null)
    const answer = await answered(() => client.copiesIn.query({ folder: folder.trim() }))
    if (answer.ok) setFound(answer.value)
    else setRefusal(answer.refusal)
  }
  const restore = async (chosen: Chosen) => {
    setRefusal(null)
    setIsRestoring(true)
    const answer = await answered(() => client.restoreCopy.mutate(chosen))
    setIsRestoring(false)
    if (answer.ok) await queryClient.invalidateQueries()
    else setRefusal(answer.refusal)
  }
  return (
    <>
      <p>
        From a disk with copies that Panelwright made: everything up to the day of the copy. Codes are not in
        it; a manager chooses a new one here.
      </p>
      <PlainForm onSubmit={look}>
        <TextInput
          label="Folder with the copies"
          hint="its whole path, like D:\Copies or /media/copies"
          value={folder}
          disabled={isRestoring}
          onChange={setFolder}
        />
        <div className="button-row">
          <Button type="submit" disabled={isRestoring || folder.trim() === ''}>
            Look for copies
          </Button>
        </div>
      </PlainForm>
      {found !== null && !isRestoring && (
        <FoundCopies found={found} onRestore={(chosen) => void restore(chosen)} />
      )}
      {isRestoring && <Going />}
      <RefusalNote refusal={refusal} />
    </>
  )
}

const ASK_AGAIN_MS = 500

function Going() {
  const { data: step } = useQuery({ ...api.restoring.queryOptions(), refetchInterval: ASK_AGAIN_MS })
  return (
    <div className="stack-tight">
      <UnderWay label="Restoring the copy">{step ?? 'Opening the copy.'}</UnderWay>
      <div className="button-row">
        <Button onClick={() => void answered(() => client.stopRestoring.mutate())}>Stop</Button>
      </div>
    </div>
  )
}
