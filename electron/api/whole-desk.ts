import type { Refusal, Result } from '../../domain/refusal.ts'

export interface WholeStream {
  /** 'panelwright-brookside-metalwork-2026-11-28.zip' */
  readonly name: string
  /** Ends with an error when it is not whole. */
  readonly stream: ReadableStream<Uint8Array<ArrayBuffer>>
}

/** How far the last taking out is; a refusal tells why it ended, as a browser only says that saving failed. */
export type WholeProgress =
  /** Files written. */
  | { readonly doing: 'writing'; readonly done: number; readonly of: number }
  | { readonly doing: 'finished'; readonly files: number; readonly bytes: number }
  | { readonly doing: 'refused'; readonly refusal: Refusal }

/** Takes the whole workshop out for a screen, and in where there is none yet, never holding it as a whole. */
export interface WholeDesk {
  readonly begin: () => Result<WholeStream>
  /** Of the last one since the host was started; null before a first one. */
  readonly progress: () => WholeProgress | null
  /** Takes an archive in to the empty data folder. @returns the workshop's name */
  readonly takeIn: (archive: AsyncIterable<Uint8Array>) => Promise<Result<string>>
  /** What is done now, in words; null when nothing is taken in. */
  readonly takingIn: () => string | null
}
