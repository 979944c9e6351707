import type { CarId } from '../../domain/ids.ts'
import type { Refusal, Result } from '../../domain/refusal.ts'
import type { FileChoices } from '../../domain/report/file-choices.ts'

export interface CarFileOrder {
  readonly carId: CarId
  readonly choices: FileChoices
  /** The whole file as one archive, under the ending of all archives or the program's own, or its book alone. */
  readonly as: 'zip' | 'panelcar' | 'pdf'
  /** Under which the screen that asked follows it; made by the screen, known to nobody else. */
  readonly watch: string
}

export interface CarFileStream {
  /** 'car-S-101.zip' */
  readonly name: string
  /** Ends with an error when it is not whole. */
  readonly stream: ReadableStream<Uint8Array<ArrayBuffer>>
}

/** How far a file is; an error tells why in words, as a browser only says that saving failed. */
export type CarFileProgress =
  /** Photos set in the book. */
  | { readonly doing: 'book'; readonly done: number; readonly of: number }
  /** Bytes written. */
  | { readonly doing: 'files'; readonly done: number; readonly of: number }
  | { readonly doing: 'finished'; readonly bytes: number }
  | { readonly doing: 'refused'; readonly refusal: Refusal }

/** Makes the files of cars for the screens, none of them ever whole in memory. */
export interface CarFileDesk {
  readonly begin: (order: CarFileOrder) => Promise<Result<CarFileStream>>
  /** Null for a watch that is not known. */
  readonly progress: (watch: string) => CarFileProgress | null
  /** Ends the making; what was sent so far is no file. */
  readonly stop: (watch: string) => void
}
