import type { Refusal } from '../../../domain/refusal.ts'
import { isHostAway, notPaired, refusalOf } from '../../client.ts'
import { hostAway } from './host-away.ts'

/**
 * What the host answers. That no answer comes, or that it refuses one, is an answer too, in words; anything else is a defect and
 * is thrown on.
 *
 * @param next what to do while the host is away, where trying again is not all
 * @param otherwise puts a defect into words where the screen has to go on
 */
export async function answered<Answer>(
  ask: () => Promise<Answer>,
  next?: string,
  otherwise?: (error: unknown) => Refusal,
): Promise<Answer | { readonly ok: false; readonly refusal: Refusal }> {
  try {
    return await ask()
  } catch (error) {
    const refusal = isHostAway(error)
      ? hostAway(next)
      : (notPaired(error) ?? refusalOf(error) ?? otherwise?.(error))
    if (refusal === undefined) throw error
    return { ok: false, refusal }
  }
}
