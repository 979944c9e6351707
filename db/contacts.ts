import { eq, getTableColumns, sql } from 'drizzle-orm'
import type { Contact, Decided } from '../domain/commands/decide.ts'
import type { NameOf } from '../domain/views/shared-views.ts'
import type { ReadDatabase } from './database.ts'
import { perHandle, type Handle } from './handle.ts'
import { contact } from './schema.ts'

/** Names and addresses of people and parties, by their id. */
export interface ContactBook {
  /** 'somebody' for an id without a contact. */
  readonly nameOf: NameOf
  readonly contactOf: (id: string) => Contact | null
}

/** As a transaction that is running has written them. */
export function nameOnWriter(writer: Handle): NameOf {
  return bookOn(writer).nameOf
}

/** The contact book as all that was recorded has left it; each name is read when it is first asked for. */
export function contactBook(db: ReadDatabase): ContactBook {
  return bookOn(db.reader)
}

/** Each is read when it is first asked for: ten years have hundreds, of which most views name a few. */
function bookOn(handle: Handle): ContactBook {
  const known = new Map<string, Contact | null>()
  const contactOf = (id: string): Contact | null => {
    let found = known.get(id)
    if (found === undefined) {
      found = queries(handle).one.get({ id }) ?? null
      known.set(id, found)
    }
    return found
  }
  return { nameOf: (id) => contactOf(id)?.name ?? 'somebody', contactOf }
}

/** Every contact, as one connection sees it. */
export function readContacts(handle: Handle): Decided['contacts'] {
  return queries(handle)
    .all.all()
    .map(({ id, ...contact }) => ({ id, contact }))
}

/** Writes contacts in the place of those of the same ids; to be called in the transaction that records the command. */
export function writeContacts(writer: Handle, contacts: Decided['contacts']): void {
  for (const { id, contact } of contacts) queries(writer).write.run({ id, ...contact })
}

/**
 * Writes the whole contact book anew: pages that were split or joined may hold an earlier row once more, beyond what deleting
 * that row reaches. To be called inside the transaction after which nothing of a contact may be left.
 */
export function rewriteContacts(writer: Handle): void {
  const contacts = readContacts(writer)
  queries(writer).clear.run()
  writeContacts(writer, contacts)
}

const { id: _id, ...contactColumns } = getTableColumns(contact)

const queries = perHandle(({ orm }) => ({
  all: orm.select().from(contact).prepare(),
  one: orm
    .select(contactColumns)
    .from(contact)
    .where(eq(contact.id, sql.placeholder('id')))
    .prepare(),
  clear: orm.delete(contact).prepare(),
  write: orm
    .insert(contact)
    .values({
      id: sql.placeholder('id'),
      name: sql.placeholder('name'),
      phone: sql.placeholder('phone'),
      email: sql.placeholder('email'),
      address: sql.placeholder('address'),
    })
    .onConflictDoUpdate({
      target: contact.id,
      set: {
        name: sql`excluded.name`,
        phone: sql`excluded.phone`,
        email: sql`excluded.email`,
        address: sql`excluded.address`,
      },
    })
    .prepare(),
}))
