import { z } from 'zod'
import { readContacts } from '../../db/contacts.ts'
import { readCarsOfToday, readRestingCars, readWorkshop } from '../../db/reads.ts'
import { MOST_COUNTED, readSearched } from '../../db/searched-reads.ts'
import { foldWords } from '../../domain/text/fold-words.ts'
import { headerFacts } from '../../domain/views/car-header.ts'
import { MOST_LETTERS } from '../../domain/views/find-shapes.ts'
import { findView, MOST_FOUND } from '../../domain/views/find-view.ts'
import type { ApiServices } from './api-services.ts'
import { procedure } from './trpc.ts'

const asked = z.strictObject({ text: z.string().max(MOST_LETTERS, 'Ask for fewer words.') })

/** More words than anybody types; each of them is looked up. */
const MOST_WORDS = 8

/**
 * One search through the workshop, alike for everybody who is let in: it shows names and words that the screens show to
 * all, and of the contact book nothing but names.
 */
export function createFindProcedures({ deps: { db } }: ApiServices) {
  return {
    find: procedure.input(asked).query(({ input }) => {
      const words = foldWords(input.text).slice(0, MOST_WORDS)
      const workshop = readWorkshop(db)
      const names = new Map(readContacts(db.reader).map(({ id, contact }) => [id, contact.name]))
      return findView({
        words,
        cars: [
          ...readCarsOfToday(db, null).map(headerFacts),
          ...readRestingCars(db).map(({ header }) => header),
        ],
        workshop,
        nameOf: (id) => names.get(id) ?? null,
        texts: (kind) => readSearched(db, kind, words, MOST_FOUND),
        counted: MOST_COUNTED,
      })
    }),
  }
}
