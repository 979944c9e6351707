import type { Readable } from 'node:stream'
import type { BagLimits } from './bag-shapes.ts'
import { bytesWords } from '../../domain/text/words.ts'
import { bagProblem } from './bag-problem.ts'
import { foldedPath, isInside } from './bag-paths.ts'
import { SEND_AGAIN } from './bag-tags.ts'

/** The files of a bag as they lie in a folder or an archive, before anything of them is believed. */
export interface BagSource {
  /** Paths from the bag's top with their size in bytes; for an archive what it says, which its reading holds it to. */
  readonly sizes: ReadonlyMap<string, number>
  readonly open: (path: string) => Promise<Readable>
  readonly close: () => Promise<void>
}

/** @throws BagProblem that says what is wrong with the bag, and that nothing of it was taken */
export function refuseBag(message: string, next: string = SEND_AGAIN): never {
  throw bagProblem('bad-input', message, next)
}

/**
 * Takes in the names of a bag one by one, and refuses at once what could lead out of it, stand for two files, or grow past
 * what may be.
 */
export class BagFiles {
  readonly sizes = new Map<string, number>()
  readonly #limits: BagLimits
  readonly #folded = new Set<string>()
  #bytes = 0

  constructor(limits: BagLimits) {
    this.#limits = limits
  }

  /** @throws BagProblem */
  add(path: string, bytes: number): void {
    checkPath(path)
    const folded = foldedPath(path)
    if (this.#folded.has(folded))
      refuseBag(`The bag holds two files that some computers cannot tell apart: ${path}.`)
    this.#folded.add(folded)
    this.sizes.set(path, bytes)
    this.#bytes += bytes
    checkCount(this.sizes.size, this.#limits)
    if (this.#bytes > this.#limits.mostBytes)
      refuseBag(
        `This bag unpacks to more than ${bytesWords(this.#limits.mostBytes)}, the most that is taken.`,
      )
  }

  /** A name may be a file or a folder, not both. @throws BagProblem */
  finish(): ReadonlyMap<string, number> {
    for (const path of this.sizes.keys()) {
      const parts = foldedPath(path).split('/')
      for (let length = 1; length < parts.length; length++)
        if (this.#folded.has(parts.slice(0, length).join('/')))
          refuseBag(`The bag holds ${path} below a file of the same name.`)
    }
    return this.sizes
  }
}

/** @throws BagProblem */
export function checkPath(path: string): void {
  if (!isInside(path))
    refuseBag(`The bag holds a name that leads out of it or cannot be a file's: '${path.slice(0, 120)}'.`)
}

/** @throws BagProblem */
export function checkCount(files: number, { mostFiles }: BagLimits): void {
  if (files > mostFiles) refuseBag(`This bag holds more than ${mostFiles} files, the most that is taken.`)
}
