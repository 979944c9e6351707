import { join } from 'node:path'

/** What every folder that copies were made into holds. */
export const COPIES_FOLDER = 'panelwright-copies'

/** Where the copies of one workshop lie. */
export interface CopyStore {
  /** `panelwright-copies/<workshop>` in the folder that was chosen. */
  readonly folder: string
}

/** Of the hash of the journal's first line, which is the same in every copy and in what was restored from one. */
export const workshopFolder = (target: string, firstHash: string): string =>
  join(target, COPIES_FOLDER, `workshop-${firstHash.slice(0, 12)}`)

export const copiesIn = (store: CopyStore): string => join(store.folder, 'copies')
export const copyFolder = (store: CopyStore, stamp: string): string => join(copiesIn(store), stamp)
export const storeLock = (store: CopyStore): string => join(store.folder, 'lock')

/** Shared by all copies: a file lies in them once, under the name that its wrapping gives it. */
export const filesIn = (store: CopyStore): string => join(store.folder, 'files')
export const filePath = (store: CopyStore, name: string): string =>
  join(filesIn(store), name.slice(0, 2), name)

/** Within the folder of a copy. */
export const COPY_FILES = {
  head: 'copy.json',
  /** Names of its files, one a line, in order. */
  list: 'files.txt',
  database: 'workshop.db',
  /** Of a sealed one. */
  content: 'content',
} as const

/** What is being written or removed has such a name until it is done. */
export const isUnfinished = (name: string): boolean => name.endsWith('.part')

/** When the copy was made whose folder has this name, epoch milliseconds; the other way of `stampOf`. */
export const stampToMoment = (stamp: string): number =>
  Date.parse(stamp.replace(/T(..)-(..)-(..)Z$/, 'T$1:$2:$3Z'))

/** Whether a name is the stamp of a copy, as `stampOf` makes them. */
export const isStamp = (name: string): boolean => /^\d{4}-\d{2}-\d{2}T\d{2}-\d{2}-\d{2}Z$/.test(name)
