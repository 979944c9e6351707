import { refuse, type Refusal, refusalWords } from '../../domain/refusal.ts'

/** What stops a bag, a copy or a whole workshop from being written or read and is nobody's defect; entries of bags throw it too. */
export class BagProblem extends Error {
  override readonly name = 'BagProblem'
  readonly refusal: Refusal

  constructor(refusal: Refusal) {
    super(refusalWords(refusal))
    this.refusal = refusal
  }
}

/** The same from the parts of a refusal. */
export const bagProblem = (...parts: Parameters<typeof refuse>): BagProblem =>
  new BagProblem(refuse(...parts).refusal)

/**
 * The refusal behind an error, where it must have one: what is a defect is told to the log.
 *
 * @param defect what people are told of a defect
 */
export function refusalOrDefect(error: unknown, defect: Refusal, log: (words: string) => void): Refusal {
  try {
    return refusalOf(error)
  } catch {
    log(error instanceof Error ? (error.stack ?? error.message) : 'a defect without words')
    return defect
  }
}

/**
 * The refusal behind an error of the disk or a stop.
 *
 * @throws the error itself where it is a defect
 */
export function refusalOf(error: unknown): Refusal {
  if (error instanceof BagProblem) return error.refusal
  if (!(error instanceof Error)) throw error
  if (error.name === 'AbortError') return STOPPED
  const refusal = DISK[('code' in error && String(error.code)) || '']
  if (refusal === undefined) throw error
  return refusal
}

/** What people are told who have stopped it themselves. */
export const STOPPED: Refusal = {
  code: 'not-now',
  message: 'This was stopped; nothing was kept.',
  next: 'Start it again when you are ready.',
}

const FULL: Refusal = {
  code: 'storage',
  message: 'The disk is full; nothing half-written was kept.',
  next: 'Make room, or choose a folder on another disk, and start again.',
}

const NOT_ALLOWED: Refusal = {
  code: 'storage',
  message: 'This folder may not be written or read.',
  next: 'Choose another folder, or ask whoever looks after this computer for access.',
}

const NO_FOLDER: Refusal = {
  code: 'storage',
  message: 'Something that is no folder stands where the folder should be.',
  next: 'Choose another folder.',
}

const FAILING: Refusal = {
  code: 'storage',
  message: 'The disk cannot be read or written.',
  next: 'Check that it is plugged in and sound, then start again.',
}

const GONE: Refusal = {
  code: 'storage',
  message: 'The folder or file is not there, or has gone meanwhile.',
  next: 'Check its name and that its disk is plugged in, then start again.',
}

const DISK: Readonly<Record<string, Refusal>> = {
  ENOSPC: FULL,
  EDQUOT: FULL,
  EFBIG: { ...FULL, message: 'A file is too large for this disk; nothing half-written was kept.' },
  EACCES: NOT_ALLOWED,
  EPERM: NOT_ALLOWED,
  EROFS: NOT_ALLOWED,
  EISDIR: NO_FOLDER,
  ENOTDIR: NO_FOLDER,
  EEXIST: NO_FOLDER,
  ENOENT: GONE,
  EIO: FAILING,
  ENXIO: FAILING,
  ENODEV: FAILING,
}
