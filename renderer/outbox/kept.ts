import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction, type StoreNames } from 'idb'
import type { Command } from '../../domain/commands/command-shapes.ts'
import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import type { AttachmentId, CarId, CommandId, PersonId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { PreparedGate } from './prepared-gate.ts'
import type { Told } from './told.ts'

export interface KeptCommand {
  readonly command: Command
  /** When it was entered, by the host's clock as this device knew it: ISO 8601 with offset. */
  readonly stated: string
  readonly told: Told | null
  /** Set once the host has refused it while nobody was waiting for the answer. */
  readonly refusal: Refusal | null
  /** What it rests on, when it was put back together with that and never sent. */
  readonly refusedWith: CommandId | AttachmentId | null
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
  /** As of a command. */
  readonly stated: string
  readonly told: Told | null
  readonly refusal: Refusal | null
}

/** Something that the host has recorded, and that is kept until a copy of the workshop holds it too. */
export interface SentThing {
  readonly in: 'sentCommands' | 'sentPhotos'
  readonly key: number
  /** The journal number of the host's answer. */
  readonly number: number
  /** When it was answered, by this device's clock, in milliseconds. */
  readonly at: number
  readonly bytes: number
}

export type Answered = Pick<SentThing, 'number' | 'at'>

/**
 * What this device keeps: what waits, what was refused, what is prepared, and what was sent until a copy holds it. Nothing
 * with a code in it is ever given to it. A promise that is kept means that the disk has it.
 */
export interface Kept {
  readonly commands: () => Promise<readonly KeptCommand[]>
  readonly putCommand: (kept: KeptCommand) => Promise<void>
  readonly dropCommand: (id: CommandId) => Promise<void>
  /** From what waits to what was sent. */
  readonly commandSent: (id: CommandId, answered: Answered) => Promise<void>
  readonly photos: () => Promise<readonly KeptPhoto[]>
  /** The first that waits, without reading those behind it: there may be hundreds. */
  readonly nextPhoto: () => Promise<KeptPhoto | undefined>
  /** Of all photos that wait or were refused, without reading their bytes. */
  readonly photoIds: () => Promise<ReadonlySet<string>>
  readonly putPhoto: (kept: KeptPhoto) => Promise<void>
  /** Null when it is not kept any more. */
  readonly changePhoto: (
    id: AttachmentId,
    change: Partial<Pick<KeptPhoto, 'caption' | 'refusal'>>,
  ) => Promise<KeptPhoto | null>
  readonly dropPhoto: (id: AttachmentId) => Promise<void>
  readonly photoSent: (id: AttachmentId, answered: Answered) => Promise<void>
  readonly prepared: () => Promise<readonly PreparedGate[]>
  readonly putPrepared: (gate: PreparedGate) => Promise<void>
  readonly dropPrepared: (id: CommandId) => Promise<void>
  readonly sent: () => Promise<readonly SentThing[]>
  readonly dropSent: (things: readonly SentThing[]) => Promise<void>
  /** The line of history that what was sent went into; null before the first. */
  readonly epoch: () => Promise<string | null>
  /** Puts all that was sent back to where it waited, in its old order, and remembers the new line: both or neither. */
  readonly startEpoch: (epoch: string) => Promise<void>
}

type StoredCommand = KeptCommand & { readonly id: CommandId }

interface Shape extends DBSchema {
  commands: { key: number; value: StoredCommand; indexes: { id: string } }
  photos: { key: number; value: KeptPhoto; indexes: { attachmentId: string } }
  prepared: { key: string; value: PreparedGate }
  sentCommands: { key: number; value: { readonly kept: StoredCommand } & Answered }
  sentPhotos: { key: number; value: { readonly kept: KeptPhoto } & Answered }
  notes: { key: string; value: string }
}

/** Opens the device's store at its first use; lists come back in the order in which their parts were first put. */
export function createKept(name = 'panelwright'): Kept {
  let opened: Promise<IDBPDatabase<Shape>> | undefined
  const forget = () => (opened = undefined)
  const database = () => (opened ??= openStore(name, forget))
  /** Done when the disk has it: a battery that dies after this loses nothing. */
  const write = async <Names extends StoreNames<Shape>[], Result>(
    names: Names,
    run: (transaction: IDBPTransaction<Shape, Names, 'readwrite'>) => Promise<Result>,
  ): Promise<Result> => {
    const transaction = (await database()).transaction(names, 'readwrite', { durability: 'strict' })
    const [result] = await Promise.all([run(transaction), transaction.done])
    return result
  }
  return {
    commands: async () => (await database()).getAll('commands'),
    putCommand: (kept) =>
      write(['commands'], async (transaction) => {
        const store = transaction.objectStore('commands')
        const { id } = kept.command
        await store.put({ ...kept, id }, await store.index('id').getKey(id))
      }),
    dropCommand: (id) =>
      write(['commands'], async (transaction) => {
        const store = transaction.objectStore('commands')
        const key = await store.index('id').getKey(id)
        if (key !== undefined) await store.delete(key)
      }),
    commandSent: (id, answered) =>
      write(['commands', 'sentCommands'], async (transaction) => {
        const store = transaction.objectStore('commands')
        const key = await store.index('id').getKey(id)
        const kept = key === undefined ? undefined : await store.get(key)
        if (key === undefined || kept === undefined) return
        await transaction.objectStore('sentCommands').put({ kept, ...answered }, key)
        await store.delete(key)
      }),
    photos: async () => (await database()).getAll('photos'),
    nextPhoto: async () => {
      const { store } = (await database()).transaction('photos')
      let each = await store.openCursor()
      while (each !== null && each.value.refusal !== null) each = await each.continue()
      return each?.value
    },
    photoIds: async () => {
      const { store } = (await database()).transaction('photos')
      const ids = new Set<string>()
      for (let each = await store.index('attachmentId').openKeyCursor(); each; each = await each.continue())
        ids.add(each.key)
      return ids
    },
    putPhoto: (kept) =>
      write(['photos'], async (transaction) => {
        const store = transaction.objectStore('photos')
        await store.put(kept, await store.index('attachmentId').getKey(kept.attachmentId))
      }),
    changePhoto: (id, change) =>
      write(['photos'], async (transaction) => {
        const store = transaction.objectStore('photos')
        const key = await store.index('attachmentId').getKey(id)
        const kept = key === undefined ? undefined : await store.get(key)
        if (kept === undefined) return null
        const changed = { ...kept, ...change }
        await store.put(changed, key)
        return changed
      }),
    dropPhoto: (id) =>
      write(['photos'], async (transaction) => {
        const store = transaction.objectStore('photos')
        const key = await store.index('attachmentId').getKey(id)
        if (key !== undefined) await store.delete(key)
      }),
    photoSent: (id, answered) =>
      write(['photos', 'sentPhotos'], async (transaction) => {
        const store = transaction.objectStore('photos')
        const key = await store.index('attachmentId').getKey(id)
        const kept = key === undefined ? undefined : await store.get(key)
        if (key === undefined || kept === undefined) return
        await transaction.objectStore('sentPhotos').put({ kept, ...answered }, key)
        await store.delete(key)
      }),
    prepared: async () => (await database()).getAll('prepared'),
    putPrepared: (gate) =>
      write(['prepared'], async (transaction) => {
        await transaction.objectStore('prepared').put(gate, gate.command.id)
      }),
    dropPrepared: (id) =>
      write(['prepared'], (transaction) => transaction.objectStore('prepared').delete(id)),
    sent: async () => readSent(await database()),
    dropSent: (things) =>
      write(['sentCommands', 'sentPhotos'], async (transaction) => {
        for (const { in: name, key } of things) await transaction.objectStore(name).delete(key)
      }),
    epoch: async () => (await (await database()).get('notes', 'epoch')) ?? null,
    startEpoch: (epoch) =>
      write(['commands', 'photos', 'sentCommands', 'sentPhotos', 'notes'], async (transaction) => {
        await transaction.objectStore('notes').put(epoch, 'epoch')
        const commands = transaction.objectStore('sentCommands')
        for (let each = await commands.openCursor(); each; each = await each.continue())
          await transaction.objectStore('commands').put(each.value.kept, each.primaryKey)
        await commands.clear()
        const photos = transaction.objectStore('sentPhotos')
        for (let each = await photos.openCursor(); each; each = await each.continue())
          await transaction.objectStore('photos').put(each.value.kept, each.primaryKey)
        await photos.clear()
      }),
  }
}

async function readSent(database: IDBPDatabase<Shape>): Promise<readonly SentThing[]> {
  const sent: SentThing[] = []
  const { store } = database.transaction('sentCommands')
  for (let each = await store.openCursor(); each; each = await each.continue()) {
    const { number, at } = each.value
    sent.push({ in: 'sentCommands', key: each.primaryKey, number, at, bytes: 0 })
  }
  const { store: photos } = database.transaction('sentPhotos')
  for (let each = await photos.openCursor(); each; each = await each.continue()) {
    const { number, at, kept } = each.value
    sent.push({ in: 'sentPhotos', key: each.primaryKey, number, at, bytes: kept.bytes.size })
  }
  return sent
}

function openStore(name: string, forget: () => void): Promise<IDBPDatabase<Shape>> {
  const opening = openDB<Shape>(name, 2, {
    async upgrade(database, from, _to, transaction) {
      if (from < 1) {
        database.createObjectStore('commands', { autoIncrement: true }).createIndex('id', 'id')
        database
          .createObjectStore('photos', { autoIncrement: true })
          .createIndex('attachmentId', 'attachmentId')
      }
      database.createObjectStore('prepared')
      database.createObjectStore('sentCommands')
      database.createObjectStore('sentPhotos')
      database.createObjectStore('notes')
      if (from === 1) await addToVersionOne(transaction)
    },
    // A newer page of this device waits to change the store: it is opened anew when it is needed again.
    blocking: () => {
      forget()
      void opening.then((database) => database.close())
    },
    terminated: forget,
  })
  // What could not be opened once may be opened the next time.
  opening.catch(forget)
  return opening
}

/** Version 1 knew neither what a thing said nor when by the host's clock: the device's own is the nearest. */
async function addToVersionOne(
  transaction: IDBPTransaction<Shape, StoreNames<Shape>[], 'versionchange'>,
): Promise<void> {
  const commands = transaction.objectStore('commands')
  for (let each = await commands.openCursor(); each; each = await each.continue())
    await each.update({ ...each.value, stated: each.value.command.made, told: null, refusedWith: null })
  const photos = transaction.objectStore('photos')
  for (let each = await photos.openCursor(); each; each = await each.continue())
    await each.update({ ...each.value, stated: each.value.made, told: null })
}
