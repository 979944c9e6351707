import { useState } from 'react'
import type { Refusal } from '../../domain/refusal.ts'
import { api, queryClient } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { answered } from '../parts/frame/answered.ts'

type Answer = { readonly ok: true } | { readonly ok: false; readonly refusal: Refusal }

/**
 * What only a signed-in manager may do outside the commands, as they are no facts: with devices, the network, copies, the check
 * and updates. A session ends after a while without use: the code is then asked for once more. `ask` gives null when it was
 * refused or no answer came, and `refusal` then says why.
 */
export function useAsManager() {
  const { askManager } = useActor()
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const ask = async <A extends Answer>(send: () => Promise<A>): Promise<Extract<A, { ok: true }> | null> => {
    setRefusal(null)
    let answer: Answer = await answered(send)
    if (!answer.ok && answer.refusal.code === 'not-allowed' && (await askManager(true)) !== null)
      answer = await answered(send)
    if (answer.ok) {
      void queryClient.invalidateQueries({ queryKey: api.devices.queryKey() })
      return answer as Extract<A, { ok: true }>
    }
    setRefusal(answer.refusal)
    return null
  }
  return { ask, refusal }
}
