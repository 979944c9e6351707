import type { Context } from 'hono'
import { photoRow, recordPhoto, type PhotoRow } from '../../db/photo-rows.ts'
import { problemToRefusal, type PhotoProblemCode, type PhotoResult } from '../../db/photos/photo-problem.ts'
import type { PhotoBytes } from '../../db/photos/photo-store.ts'
import { readWorkshop } from '../../db/reads.ts'
import { cameraTimeToInstant, instantToIso } from '../../domain/time/zone.ts'
import type { ApiDeps } from './deps.ts'
import { refused } from './guard.ts'
import { readToEnd, uploadOf } from './read-to-end.ts'

/** What the screen is told of a photo that was stored. */
export interface StoredPhotoView {
  readonly sha256: string
  /** Pixels of the upright picture. */
  readonly width: number
  readonly height: number
  /** Camera date as ISO 8601 with offset, read in the workshop's zone where the camera gave none. */
  readonly taken: string | null
  /** What the camera's clock showed, without a zone. */
  readonly cameraLocal: string | null
}

export interface PhotoRoutes {
  readonly put: (c: Context) => Promise<Response>
  readonly get: (c: Context, sha256: string, size: string) => Promise<Response>
}

/** `PUT /photos` takes the bytes of one photo as they are; `GET /photos/SHA256/SIZE` gives them back. */
export function createPhotoRoutes(deps: ApiDeps): PhotoRoutes {
  const { db, photos, now } = deps
  const sizes = createSizes(deps)

  return {
    put: async (c) => {
      const body = c.req.raw.body
      const stored = await photos.add(uploadOf(body))
      if (!stored.ok) {
        await readToEnd(body, MOST_DROPPED_BYTES)
        return refused(c, STATUS[stored.problem.code] ?? 422, problemToRefusal(stored.problem))
      }
      const row = recordPhoto(db, stored.value, now())
      sizes.prepare(row.sha256)
      return c.json(rowToView(row, readWorkshop(db).zone))
    },
    get: async (c, sha256, size) => {
      const row = photoRow(db, sha256)
      if (size === 'original') return answerPhoto(c, await photos.readOriginal(sha256), original(row))
      if (size !== 'thumb' && size !== 'screen') return c.text('There is no such size.', 404)
      const bytes = await sizes.read(sha256, size)
      return answerPhoto(c, bytes, { type: 'image/webp', name: `photo-${sha256.slice(0, 12)}-${size}.webp` })
    },
  }
}

const STATUS: Partial<Record<PhotoProblemCode, 413 | 415 | 507>> = {
  'too-large': 413,
  'not-an-image': 415,
  'disk-full': 507,
  'folder-not-writable': 507,
}

/** Sizes are made after a photo has arrived, or when one is asked for that is not there; never twice at a time. */
function createSizes({ photos, makeSizes, closing, log }: ApiDeps) {
  const underWay = new Map<string, Promise<PhotoResult<true>>>()

  const make = (sha256: string): Promise<PhotoResult<true>> => {
    const known = underWay.get(sha256)
    if (known !== undefined) return known
    const making = makeSizes(sha256).finally(() => underWay.delete(sha256))
    underWay.set(sha256, making)
    return making
  }

  /** What the end of the host breaks off is made when it is asked for, and is no defect. */
  const tell = (sha256: string, what: string): void => {
    if (!closing.aborted) log(`Sizes of the photo ${sha256.slice(0, 12)}: ${what}`)
  }

  return {
    prepare: (sha256: string): void => {
      make(sha256).then(
        (made) => made.ok || tell(sha256, made.problem.message),
        (error: unknown) => tell(sha256, String(error)),
      )
    },
    read: async (sha256: string, size: 'thumb' | 'screen'): Promise<PhotoResult<PhotoBytes>> => {
      const ready = underWay.has(sha256) ? null : await photos.readSize(sha256, size)
      if (ready?.ok === true) return ready
      const made = await make(sha256)
      return made.ok ? photos.readSize(sha256, size) : made
    },
  }
}

function rowToView(
  { sha256, width, height, cameraLocal, cameraOffset }: PhotoRow,
  zone: string,
): StoredPhotoView {
  const exifTime = cameraLocal?.replace('T', ' ').replaceAll('-', ':') ?? ''
  const instant = cameraTimeToInstant(exifTime, zone, cameraOffset)
  return { sha256, width, height, taken: instant === null ? null : instantToIso(instant, zone), cameraLocal }
}

interface PhotoFile {
  readonly type: string
  readonly name: string
}

function original(row: PhotoRow | null): PhotoFile {
  const type = row?.type ?? 'jpeg'
  const name = `photo-${row?.sha256.slice(0, 12) ?? 'unknown'}.${type === 'jpeg' ? 'jpg' : type}`
  return { type: row === null ? 'application/octet-stream' : `image/${type}`, name }
}

/** A digest names bytes that never change, so a screen needs them once; the photo may be seen by this screen only. */
function answerPhoto(c: Context, bytes: PhotoResult<PhotoBytes>, { type, name }: PhotoFile): Response {
  if (!bytes.ok) return refused(c, 404, problemToRefusal(bytes.problem))
  // Node's own stream type and the web's describe the same class.
  return c.body(bytes.value.stream as ReadableStream, 200, {
    'Content-Type': type,
    'Content-Length': String(bytes.value.byteCount),
    'Content-Disposition': `inline; filename="${name}"`,
    'Cache-Control': 'private, max-age=31536000, immutable',
  })
}

/** What is read and dropped of a refused photo, at most; far above the limit, so that people see why it was refused. */
const MOST_DROPPED_BYTES = 200 * 1024 * 1024
