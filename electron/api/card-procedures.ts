import { z } from 'zod'
import { photoRow } from '../../db/photo-rows.ts'
import { readAllCars } from '../../db/reads.ts'
import { dateSchema, sha256Schema } from '../../domain/facts/shapes.ts'
import { carIdSchema, personIdSchema } from '../../domain/ids.ts'
import { clockCorrection, type ClockCorrection } from '../../domain/import/photo-clock.ts'
import type { CardPhoto } from '../../domain/import/photo-match-shapes.ts'
import { cardProposal, type CardProposal } from '../../domain/import/photo-proposal.ts'
import { ok, type Refusal, type Result } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import { requireCar, viewInput } from './known-car.ts'
import { procedure } from './trpc.ts'

export type CardAnswer =
  | { readonly ok: true; readonly proposal: CardProposal }
  | { readonly ok: false; readonly refusal: Refusal }

/** More than a card of one week holds; each is matched against the work of its day. */
const MOST_PHOTOS = 2_000

const cardSchema = z.strictObject({
  sha256s: z
    .array(sha256Schema)
    .max(
      MOST_PHOTOS,
      'More than 2,000 photos at once are too many to look through; bring them in by the week.',
    ),
  /** The only car that the photos are of; null for any. */
  carId: carIdSchema.nullable(),
  /** The person whose camera it is, so that others who were clocked on at the time are passed over; null for any. */
  by: personIdSchema.nullable(),
  /** One photo of the camera whose true time is known; null where its clock is taken as right. */
  reference: z
    .strictObject({
      sha256: sha256Schema,
      date: dateSchema,
      time: z.string().regex(/^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/, 'Give a time like 14:32.'),
    })
    .nullable(),
})
type Card = z.infer<typeof cardSchema>

/**
 * Photos from a folder or a camera card: where each belongs, for a person to confirm. They are sent as every photo is
 * (`PUT /photos`) and attached by the usual command. A mutation, as hundreds of digests are too long for an address.
 */
export function createCardProcedures(services: ApiServices) {
  return {
    /** Whether the host has a photo with these bytes, so that it need not be sent again. */
    cardPhotoKnown: procedure
      .input(z.strictObject({ sha256: sha256Schema }))
      .query(({ input }): boolean => photoRow(services.deps.db, input.sha256) !== null),
    cardProposal: procedure.input(cardSchema).mutation(({ input }): CardAnswer => propose(services, input)),
  }
}

function propose({ deps }: ApiServices, card: Card): CardAnswer {
  if (card.carId !== null) requireCar(deps, card.carId)
  const input = viewInput(deps)
  const correction = correctionOf(deps, card, input.workshop.zone, input.now)
  if (!correction.ok) return correction
  const photos = [...new Set(card.sha256s)].flatMap((sha256) => cardPhoto(deps, sha256) ?? [])
  const cars = readAllCars(deps.db)
  const { carId: of, by } = card
  const proposal = cardProposal({ ...input, photos, cars, of, by, correction: correction.value })
  return { ok: true, proposal }
}

function correctionOf(
  deps: ApiServices['deps'],
  { reference }: Card,
  zone: string,
  now: number,
): Result<ClockCorrection | null> {
  if (reference === null) return ok(null)
  const camera = cardPhoto(deps, reference.sha256)?.camera ?? null
  return clockCorrection({ ...reference, camera }, zone, now)
}

/** Null for a photo that was never sent. */
function cardPhoto({ db }: ApiServices['deps'], sha256: string): CardPhoto | null {
  const row = photoRow(db, sha256)
  if (row === null) return null
  const { cameraLocal: local, cameraOffset: offset } = row
  return { sha256, camera: local === null ? null : { local, offset } }
}
