import type { CarId } from '../../domain/ids.ts'
import type { CardProposal, CarToChoose } from '../../domain/import/photo-proposal.ts'
import type { client } from '../client.ts'

export type Ask = Parameters<typeof client.cardProposal.mutate>[0]

/** The photo whose true time is known, as it is asked for. */
export type Reference = NonNullable<Ask['reference']>

export function carById({ cars }: CardProposal, carId: CarId): CarToChoose | undefined {
  return cars.find((car) => car.carId === carId)
}
