import { eq, sql } from 'drizzle-orm'
import type { IdsIn } from '../domain/bring-in/ids-in.ts'
import type { Contact } from '../domain/commands/decide.ts'
import type { CarId } from '../domain/ids.ts'
import type { WorkshopState } from '../domain/workshop.ts'
import { nameOnWriter } from './contacts.ts'
import type { Database } from './database.ts'
import { perHandle, type Handle } from './handle.ts'
import { attachment, carTable } from './schema.ts'
import { carAt } from './state-cache.ts'

/** Shell numbers and names of the cars of this workshop. */
export function carsHere(handle: Handle): {
  readonly shellNumbers: ReadonlyMap<string, CarId>
  readonly carNames: ReadonlyMap<CarId, string>
} {
  const cars = queries(handle).cars.all()
  return {
    shellNumbers: new Map(cars.map(({ id, shellNumber }) => [shellNumber, id])),
    carNames: new Map(cars.map(({ id, name }) => [id, name])),
  }
}

/**
 * Ids of a car that comes in which are somebody's or something else's here. A person or party of the same id and name is the
 * same one, as in two copies of one workshop.
 */
export function takenIds(
  { writer, cache }: Database,
  { people, parties, visits, attachments }: IdsIn,
  contacts: ReadonlyMap<string, Contact>,
  workshop: WorkshopState,
): readonly string[] {
  const nameOf = nameOnWriter(writer)
  const erased = new Set<string>(workshop.erased.keys())
  const isOther = (id: string) => {
    // Who was erased here stays so, whatever name a file brings along.
    if (erased.has(id)) return false
    const name = contacts.get(id)?.name
    return name !== undefined && name !== nameOf(id)
  }
  const cars = queries(writer).cars.all()
  const visitsHere = new Set(
    cars.flatMap(({ id, revision }) => [...carAt(writer, cache, id, revision).visits.keys()]),
  )
  return [
    ...[...people].filter((id) => workshop.people.has(id) && isOther(id)),
    ...[...parties].flatMap(([id, kind]) => {
      const known = workshop.parties.get(id)
      return known !== undefined && (known.kind !== kind || isOther(id)) ? [id] : []
    }),
    ...[...visits].filter((id) => visitsHere.has(id)),
    ...[...attachments].filter((id) => queries(writer).attachment.get({ id }) !== undefined),
  ]
}

const queries = perHandle(({ orm }) => ({
  cars: orm.select().from(carTable).prepare(),
  attachment: orm
    .select({ id: attachment.id })
    .from(attachment)
    .where(eq(attachment.id, sql.placeholder('id')))
    .prepare(),
}))
