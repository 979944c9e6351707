import type { z } from 'zod'
import { contactBook } from '../../db/contacts.ts'
import { countTyped, readCarsOfParty, readErasures, visitsOfParty } from '../../db/erasures.ts'
import { readWorkshop } from '../../db/reads.ts'
import { rehearseCommands } from '../../db/rehearse-commands.ts'
import { workshopFacts } from '../../domain/facts/workshop-facts.ts'
import type { CarState, Moment } from '../../domain/car.ts'
import { commandIdSchema, type PersonId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import type { Asker } from './pairing.ts'
import { procedure } from './trpc.ts'

/** What erasing a contact would leave, to be said before it is done. */
export interface ErasingView {
  /** Why it cannot be done now; null where it can. */
  readonly refusal: Refusal | null
  /** Names of the cars that it is owner or insurer of. */
  readonly cars: readonly string[]
  /** Issued owner reports of these visits, which are kept as they went out. */
  readonly reports: number
  /** Lines of these cars' records, and drafts, in which somebody typed the name. */
  readonly typed: number
}

/** Who was erased: nothing is known of them but what they were. */
export interface ErasedView {
  readonly id: string
  readonly kind: 'owner' | 'insurer' | 'firm' | 'person'
  readonly at: Moment
}

const erasingSchema = workshopFacts.contactErased

/** Contacts that were erased for good, and what erasing one would come to; for managers. */
export function createContactProcedures(services: ApiServices) {
  const { deps } = services
  return {
    erased: procedure.query((): readonly ErasedView[] => {
      const { parties } = readWorkshop(deps.db)
      const kinds = new Map<string, ErasedView['kind']>(
        [...parties.values()].map(({ id, kind }) => [id, kind]),
      )
      return readErasures(deps.db).map(({ id, at }) => ({ id, at, kind: kinds.get(id) ?? 'person' }))
    }),

    erasing: procedure.input(erasingSchema).query(({ input: { id }, ctx }): ErasingView => {
      const cars = readCarsOfParty(deps.db, id)
      const name = contactBook(deps.db).contactOf(id)?.name ?? null
      return {
        refusal: rehearse(services, ctx.asker, id),
        cars: cars.map((car) => car.name),
        reports: cars.reduce((sum, car) => sum + reportsOf(car, id), 0),
        typed:
          name === null
            ? 0
            : countTyped(
                deps.db,
                name,
                cars.map((car) => car.id),
              ),
      }
    }),
  }
}

function reportsOf(car: CarState, id: string): number {
  const visits = new Set(visitsOfParty(car, id).map((visit) => visit.id))
  return [...car.reports.values()].filter(({ visitId }) => visits.has(visitId)).length
}

/** What the command would be answered; nothing is recorded. */
function rehearse(
  { deps, sessions }: ApiServices,
  { device }: Asker,
  id: z.output<typeof erasingSchema>['id'],
): Refusal | null {
  const now = deps.now()
  const command = {
    id: commandIdSchema.parse(crypto.randomUUID()),
    kind: 'eraseContact' as const,
    carId: null,
    seen: null,
    by: sessions.person(device.id) as PersonId,
    code: null,
    second: null,
    happened: null,
    made: new Date(now).toISOString(),
    payload: { id },
  }
  return rehearseCommands(deps.db, [{ command, device: device.id, second: null, now }])[0] ?? null
}
