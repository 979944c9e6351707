import type { Database } from '../../db/database.ts'
import { eraseAgain, type Erasure } from '../../db/erasures.ts'
import { plural } from '../../domain/text/words.ts'
import { readErasureList } from './erasure-list.ts'
import type { OpenCopy } from './open-copy.ts'

/**
 * Erases again who was erased after the copy was made, by the list beside the copies. To be called before anybody sees what is
 * restored.
 *
 * @param further who a later copy knows as erased
 *
 * @returns what people should know, in words; nothing where nobody was erased since
 */
export async function eraseLater(
  { store }: OpenCopy,
  db: Database,
  further: readonly Erasure[],
): Promise<readonly string[]> {
  const listed = await readErasureList(store)
  const count = eraseAgain(db, [...(listed ?? []), ...further], Date.now())
  if (listed === null) return [NO_LIST]
  return count === 0
    ? []
    : [
        `${plural('contact', count)} that ${count === 1 ? 'was' : 'were'} erased after this copy was made ${count === 1 ? 'is' : 'are'} erased here, too.`,
      ]
}

const NO_LIST =
  'The list of erased contacts is not beside this copy, or cannot be read. Names and addresses that were erased after it was made may be back: look through them on the Workshop screen, under Contacts, and erase them once more.'
