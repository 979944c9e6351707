import { z } from 'zod'
import type { CommandPayload } from '../../../domain/commands/command-shapes.ts'

type Charge = CommandPayload<'openVisit'>['charge']

/** What is agreed about a visit, as its fields hold it; {@link capIsGiven} holds for all of them together. */
export const agreementFields = {
  promised: z.iso.date().nullable(),
  priority: z.enum(['1', '2', '3']),
  charge: z.enum(['hour', 'fixed', 'capped']),
  capHours: z.number().min(0, 'Hours cannot be negative.').nullable(),
}

export const capIsGiven = {
  check: ({ charge, capHours }: { readonly charge: Charge['by']; readonly capHours: number | null }) =>
    charge !== 'capped' || capHours !== null,
  says: { error: 'Give the hours of the cap.', path: ['capHours'] },
}

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
