import { openDB, type DBSchema, type IDBPDatabase } from 'idb'
import type { Command } from '../../domain/commands/command-shapes.ts'
import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import type { AttachmentId, CarId, CommandId, PersonId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'

export interface KeptCommand {
  readonly command: Command
  /** Set once the host has refused it while nobody was waiting for the answer. */
  readonly refusal: Refusal | null
}

export interface KeptPhoto {
  readonly attachmentId: AttachmentId
  /** Of the command that will attach it, so that a repeat is harmless. */
  readonly commandId: CommandId
  readonly carId: CarId
  readonly by: PersonId
  readonly made: string
  readonly name: string
  readonly caption: string
  readonly serves: readonly PhotoServes[]
  readonly bytes: Blob
  readonly refusal: Refusal | null
}

/** What this device keeps until the host has answered. Nothing with a code in it is ever given to it. */
export interface Kept {
  readonly commands: () => Promise<readonly KeptCommand[]>
  readonly putCommand: (kept: KeptCommand) => Promise<void>
  readonly dropCommand: (id: CommandId) => Promise<void>
  readonly photos: () => Promise<readonly KeptPhoto[]>
  readonly putPhoto: (kept: KeptPhoto) => Promise<void>
  readonly dropPhoto: (id: AttachmentId) => Promise<void>
}

interface Shape extends DBSchema {
  commands: { key: number; value: KeptCommand & { readonly id: CommandId }; indexes: { id: string } }
  photos: { key: number; value: KeptPhoto; indexes: { attachmentId: string } }
}

/** Opens the device's store at its first use; both lists come back in the order in which they were put. */
export function createKept(name = 'panelwright'): Kept {
  let opened: Promise<IDBPDatabase<Shape>> | undefined
  const database = () => (opened ??= openStore(name))
  return {
    commands: async () => (await database()).getAll('commands'),
    putCommand: async (kept) => {
      const { store, key } = await existing(await database(), 'commands', 'id', kept.command.id)
      await store.put({ ...kept, id: kept.command.id }, key)
    },
    dropCommand: async (id) => {
      const { store, key } = await existing(await database(), 'commands', 'id', id)
      if (key !== undefined) await store.delete(key)
    },
    photos: async () => (await database()).getAll('photos'),
    putPhoto: async (kept) => {
      const { store, key } = await existing(await database(), 'photos', 'attachmentId', kept.attachmentId)
      await store.put(kept, key)
    },
    dropPhoto: async (id) => {
      const { store, key } = await existing(await database(), 'photos', 'attachmentId', id)
      if (key !== undefined) await store.delete(key)
    },
  }
}

function openStore(name: string): Promise<IDBPDatabase<Shape>> {
  return openDB<Shape>(name, 1, {
    upgrade(database) {
      database.createObjectStore('commands', { autoIncrement: true }).createIndex('id', 'id')
      database
        .createObjectStore('photos', { autoIncrement: true })
        .createIndex('attachmentId', 'attachmentId')
    },
  })
}

async function existing<Name extends 'commands' | 'photos'>(
  database: IDBPDatabase<Shape>,
  name: Name,
  index: Name extends 'commands' ? 'id' : 'attachmentId',
  id: string,
) {
  const store = database.transaction(name, 'readwrite').store
  return { store, key: await store.index(index as never).getKey(id as never) }
}
