import { useQuery } from '@tanstack/react-query'
import { api } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { useRepair } from './repair-context.ts'

/** That the work goes beyond what its payer has agreed to, and the draft of the question. */
export function BeyondAgreed() {
  const { view, open } = useRepair()
  const all = useQuery(api.beyondAgreed.queryOptions({ carId: view.car.carId })).data ?? []
  const beyond = all.find(({ repairId }) => repairId === view.repair.id)
  if (beyond === undefined) return null
  return (
    <Notice kind="held">
      <div className="spread">
        <p>{beyond.words}</p>
        <Button onClick={() => open({ kind: 'variation' })}>Draft a variation</Button>
      </div>
    </Notice>
  )
}
