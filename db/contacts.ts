import { sql } from 'drizzle-orm'
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

export function contactBook(db: ReadDatabase): ContactBook {
  return bookOn(db.reader)
}

function bookOn(handle: Handle): ContactBook {
  const contacts = new Map(
    queries(handle)
      .all.all()
      .map(({ id, ...contact }) => [id, contact]),
  )
  return {
    nameOf: (id) => contacts.get(id)?.name ?? 'somebody',
    contactOf: (id) => contacts.get(id) ?? null,
  }
}

/** Every contact, as one connection sees it. */
export function readContacts(handle: Handle): Decided['contacts'] {
  return queries(handle)
    .all.all()
    .map(({ id, ...contact }) => ({ id, contact }))
}

export function writeContacts(writer: Handle, contacts: Decided['contacts']): void {
  for (const { id, contact } of contacts) queries(writer).write.run({ id, ...contact })
}

const queries = perHandle(({ orm }) => ({
  all: orm.select().from(contact).prepare(),
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
