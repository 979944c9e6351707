import exifr from 'exifr'

/** What the camera's clock showed. The zone, where the camera gave none, is the workshop's and is applied by domain/time. */
export interface CameraTime {
  /** 'YYYY-MM-DDTHH:MM:SS', without a zone. */
  readonly local: string
  /** UTC offset as '+HH:MM' or '-HH:MM'; null when the camera did not say it. */
  readonly offset: string | null
}

/** EXIF 2.32, Orientation (0x0112): 1 upright, 2 to 8 mirrored or turned. */
export type Orientation = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8

/**
 * Reads when a photo was taken from its EXIF block: DateTimeOriginal (0x9003, 'YYYY:MM:DD HH:MM:SS' without a zone) and
 * OffsetTimeOriginal (0x9011), both EXIF 2.32. A camera may have left anything in these fields, and an unset clock
 * writes zeros: what is no date is null, as is what cannot be parsed at all.
 *
 * @param exif the block as sharp hands it out, with or without its 'Exif' prefix; undefined when the photo has none
 */
export async function readCameraTime(exif: Uint8Array | undefined): Promise<CameraTime | null> {
  if (exif === undefined) return null
  const fields = await parseFields(withoutPrefix(exif))
  const local = exifDateToLocal(fields.DateTimeOriginal)
  return local === null ? null : { local, offset: exifOffset(fields.OffsetTimeOriginal) }
}

/** Any value that EXIF does not define is shown upright, as other programs do. */
export function toOrientation(value: number | undefined): Orientation {
  return value !== undefined && Number.isInteger(value) && value >= 1 && value <= 8
    ? (value as Orientation)
    : 1
}

interface ExifFields {
  readonly DateTimeOriginal?: unknown
  readonly OffsetTimeOriginal?: unknown
}

/** exifr answers a broken block by an error or by nothing; either way the photo simply has no camera date. */
async function parseFields(tiff: Uint8Array): Promise<ExifFields> {
  try {
    const fields: unknown = await exifr.parse(tiff, {
      pick: ['DateTimeOriginal', 'OffsetTimeOriginal'],
      reviveValues: false,
    })
    return typeof fields === 'object' && fields !== null ? fields : {}
  } catch {
    return {}
  }
}

function withoutPrefix(exif: Uint8Array): Uint8Array {
  const hasPrefix = exif[0] === 0x45 && exif[1] === 0x78 && exif[2] === 0x69 && exif[3] === 0x66
  return hasPrefix ? exif.subarray(6) : exif
}

function exifDateToLocal(value: unknown): string | null {
  const match = /^(\d{4}):(\d{2}):(\d{2}) (\d{2}):(\d{2}):(\d{2})$/.exec(trimmed(value))
  if (match === null) return null
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = match.slice(1).map(Number)
  const isReal = year > 0 && month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month)
  if (!isReal || hour > 23 || minute > 59 || second > 59) return null
  return `${match[1]}-${match[2]}-${match[3]}T${match[4]}:${match[5]}:${match[6]}`
}

/** Offsets in use run from -12:00 to +14:00. */
function exifOffset(value: unknown): string | null {
  const match = /^([+-])(\d{2}):([0-5]\d)$/.exec(trimmed(value))
  if (match === null) return null
  const minutes = (Number(match[2]) * 60 + Number(match[3])) * (match[1] === '-' ? -1 : 1)
  return minutes >= -12 * 60 && minutes <= 14 * 60 ? match[0] : null
}

/** EXIF texts end in a zero byte, and some cameras pad them. */
function trimmed(value: unknown): string {
  return typeof value === 'string' ? value.replaceAll('\0', '').trim() : ''
}

function daysInMonth(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate()
}
