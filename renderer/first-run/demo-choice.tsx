import { useState } from 'react'
import { DEMO_CODES } from '../../domain/demo-codes.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { client, queryClient } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { answered } from '../parts/frame/answered.ts'
import { RefusalNote } from '../parts/form/notice.tsx'
import { UnderWay } from '../parts/frame/under-way.tsx'

/** Fills the empty data folder with an invented workshop, which takes a while. */
export function DemoChoice() {
  const [isFilling, setIsFilling] = useState(false)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const fill = async () => {
    setIsFilling(true)
    setRefusal(null)
    const answer = await answered(() => client.startDemo.mutate(), START_AGAIN)
    setIsFilling(false)
    if (answer.ok) await queryClient.invalidateQueries()
    else setRefusal(answer.refusal)
  }
  return (
    <>
      <p>
        An invented workshop with six bays, seven people and nine cars at every stage, with eight months of
        work up to today. Sign in as its manager, Maren, with {DEMO_CODES.maren}; each person’s code stands
        where one signs.
      </p>
      <Button onClick={() => void fill()} disabled={isFilling}>
        Look around the demo
      </Button>
      {isFilling && (
        <UnderWay label="Filling the demo workshop">
          Drawing eight months of work; this takes up to a minute.
        </UnderWay>
      )}
      <RefusalNote refusal={refusal} />
    </>
  )
}

const START_AGAIN = 'Start Panelwright again and try once more.'
