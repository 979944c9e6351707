import type { CarId, RepairId } from '../domain/ids.ts'
import { api, queryClient, type SessionView } from './client.ts'
import { readPersonId } from './parts/sign/actor.tsx'

/**
 * Asks for what every screen goes by and then for what the one of this address reads, while its code is on its way. The session
 * comes first: what is read after it holds all changes up to the revision that it names, from which the page follows them. What
 * fails is asked for again by whoever shows it.
 *
 * @param path of the page, without what is searched for in it
 */
export async function askAhead(path: string): Promise<void> {
  await queryClient.prefetchQuery(api.session.queryOptions())
  const session = queryClient.getQueryData(api.session.queryKey())
  if (session?.setUp === true) await askForScreen(path, session)
}

async function askForScreen(path: string, session: SessionView): Promise<void> {
  const [, screen, id, , repair] = path.split('/')
  switch (screen) {
    case 'shop-floor':
      await Promise.all([
        queryClient.prefetchQuery(api.shopFloor.queryOptions()),
        queryClient.prefetchQuery(api.copiesWarning.queryOptions()),
      ])
      return
    case 'plan':
      await queryClient.prefetchQuery(api.plan.queryOptions())
      return
    case 'day-sheet':
      await askForDaySheet(session)
      return
    case 'cars':
      await (id === undefined ? queryClient.prefetchQuery(api.cars.queryOptions()) : askForCar(id, repair))
      return
    case 'owner-decisions':
      await queryClient.prefetchQuery(api.ownerDecisions.queryOptions())
      return
    case 'variance':
      if (id === undefined) await queryClient.prefetchQuery(api.variance.queryOptions())
      return
    case 'workshop':
      await queryClient.prefetchQuery(api.workshop.queryOptions())
      return
    default:
  }
}

async function askForDaySheet({ people }: SessionView): Promise<void> {
  const here = readPersonId()
  const person = people.find(({ id, active }) => active && id === here)
  if (person !== undefined)
    await queryClient.prefetchQuery(api.daySheet.queryOptions({ personId: person.id }))
}

async function askForCar(car: string, repair: string | undefined): Promise<void> {
  const carId = car as CarId
  if (repair === undefined) {
    await queryClient.prefetchQuery(api.car.queryOptions({ carId }))
    return
  }
  await Promise.all([
    queryClient.prefetchQuery(api.repair.queryOptions({ carId, repairId: repair as RepairId })),
    queryClient.prefetchQuery(api.beyondAgreed.queryOptions({ carId })),
  ])
}
