import type { CommandPayload } from '../../domain/commands/command-shapes.ts'

type Charge = CommandPayload<'openVisit'>['charge']

export const priorityChoices = [
  { value: '1', words: 'ordinary' },
  { value: '2', words: 'soon' },
  { value: '3', words: 'first' },
]

export const chargeChoices: readonly { readonly value: Charge['by']; readonly words: string }[] = [
  { value: 'hour', words: 'by the hour' },
  { value: 'fixed', words: 'fixed' },
  { value: 'capped', words: 'by the hour, capped' },
]

/** @param capHours hours of the cap; read only for 'capped' */
export function toCharge(by: Charge['by'], capHours: number | null): Charge {
  return by === 'capped' ? { by, capHours: capHours ?? 0 } : { by }
}
