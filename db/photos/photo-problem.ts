import type { Refusal } from '../../domain/refusal.ts'
import { isSystemError } from '../system-error.ts'

/** 50 MB as file managers count them, so that what is shown there as 50 MB is taken. */
export const MAX_PHOTO_BYTES = 50 * 1024 * 1024

/** 100 megapixels: above every phone and most cameras, and a bound on the memory that decoding takes. */
export const MAX_PHOTO_PIXELS = 100_000_000

/** Closed list: screens and tests decide by the code, people read the message and the next step. */
const PHOTO_PROBLEM_CODES = [
  'too-large',
  'empty',
  'not-an-image',
  'truncated',
  'too-many-pixels',
  'heic-unsupported',
  'upload-broken',
  'disk-full',
  'folder-not-writable',
  'missing',
  'changed',
  'worker-failed',
] as const

export type PhotoProblemCode = (typeof PHOTO_PROBLEM_CODES)[number]

export interface PhotoProblem {
  readonly code: PhotoProblemCode
  /** What is wrong, in the workshop's words. */
  readonly message: string
  /** What the person can do now. */
  readonly next: string
}

export type PhotoFailure = { readonly ok: false; readonly problem: PhotoProblem }
export type PhotoResult<T> = { readonly ok: true; readonly value: T } | PhotoFailure

/** A problem as a result. */
export function photoFailure(problem: PhotoProblem): PhotoFailure {
  return { ok: false, problem }
}

/** The same problem as a refusal of a command: trouble with the disk is 'storage', all else is 'photo'. */
export function problemToRefusal(problem: PhotoProblem): Refusal {
  const isStorage = STORAGE_CODES.has(problem.code)
  return { code: isStorage ? 'storage' : 'photo', message: problem.message, next: problem.next }
}

const STORAGE_CODES: ReadonlySet<PhotoProblemCode> = new Set<PhotoProblemCode>([
  'disk-full',
  'folder-not-writable',
  'missing',
  'changed',
  'worker-failed',
])

export const tooLarge: PhotoProblem = {
  code: 'too-large',
  message: 'This photo is larger than 50 MB, the most that is taken.',
  next: 'Save it smaller, or take it again at the normal quality of the camera, and send that one.',
}

export const empty: PhotoProblem = {
  code: 'empty',
  message: 'This photo is empty: it holds 0 bytes.',
  next: 'Check it on the camera or phone, and send it again from there.',
}

export const truncated: PhotoProblem = {
  code: 'truncated',
  message: 'This photo is incomplete or damaged: it could not be read to its end.',
  next: 'Send it again from where it was taken. If it is damaged there as well, take it again.',
}

export const heicUnsupported: PhotoProblem = {
  code: 'heic-unsupported',
  message: 'This HEIC photo is in a form that cannot be read here.',
  next: 'Save it as JPEG on the phone and send that one, or set the phone’s camera to JPEG (“most compatible”).',
}

export const uploadBroken: PhotoProblem = {
  code: 'upload-broken',
  message: 'The connection broke off before the whole photo had arrived.',
  next: 'Nothing was kept of it. Send it again.',
}

/** @param looksLike what the bytes are instead, with its article, such as 'an SVG drawing' */
export function notAnImage(looksLike: string): PhotoProblem {
  return {
    code: 'not-an-image',
    message: `This is not a photo that can be kept: by its content it is ${looksLike}.`,
    next: 'Send a JPEG, PNG, WebP or HEIC photo.',
  }
}

/** @param width, height pixels, as the header states them */
export function tooManyPixels(width: number, height: number): PhotoProblem {
  const megapixels = Math.ceil((width * height) / 1_000_000)
  return {
    code: 'too-many-pixels',
    message: `This photo has ${width} x ${height} pixels, ${megapixels} megapixels; the most that is taken is 100 megapixels.`,
    next: 'Save it smaller, or take it again at a lower resolution, and send that one.',
  }
}

export function missing(sha256: string): PhotoProblem {
  return {
    code: 'missing',
    message: `The photo ${sha256.slice(0, 12)} is not in the photo folder.`,
    next: 'Bring it back from the newest copy of the workshop, or send the same photo again.',
  }
}

export const missingSize: PhotoProblem = {
  code: 'missing',
  message: 'This size of the photo has not been made yet.',
  next: 'Try again in a moment; the photo itself is kept.',
}

export function changed(sha256: string): PhotoProblem {
  return {
    code: 'changed',
    message: `The photo ${sha256.slice(0, 12)} is not what was stored: its bytes have changed on the disk.`,
    next: 'Bring it back from the newest copy of the workshop, or send the same photo again, and have the disk checked.',
  }
}

/** @param reason what happened to the worker, such as 'it took longer than 120 s' */
export function workerFailed(reason: string): PhotoProblem {
  return {
    code: 'worker-failed',
    message: `Reading this photo was broken off: ${reason}.`,
    next: 'Send it again. If that happens with the same photo, save it as JPEG and send that one.',
  }
}

/**
 * A failed disk operation as a problem. Anything that is no operating system error is a defect and is thrown on.
 */
export function diskProblem(error: unknown): PhotoProblem {
  if (!isSystemError(error)) throw error
  if (error.code === 'ENOSPC' || error.code === 'EDQUOT')
    return {
      code: 'disk-full',
      message: 'The disk that holds the photos is full.',
      next: 'Make room on it, then send the photo again. Nothing that was stored before is lost.',
    }
  return {
    code: 'folder-not-writable',
    message: `The photo folder cannot be used (${error.code}).`,
    next: 'Check that its disk is attached and that this account may write to it, then send the photo again.',
  }
}
