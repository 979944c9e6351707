import { create } from 'qrcode'

/** Light modules that a reader needs on each side, ISO/IEC 18004. */
const QUIET_ZONE = 4

export interface QrPath {
  /** Modules on a side, the quiet zone included. */
  readonly size: number
  /** SVG path data of all dark modules, one module a unit. */
  readonly path: string
}

/** A text as a QR code that can be read with 15 % of it unreadable. */
export function qrPath(text: string): QrPath {
  const { modules } = create(text, { errorCorrectionLevel: 'M' })
  const places = Array.from({ length: modules.size ** 2 }, (_, at) => at)
  const path = places
    .filter((at) => modules.data[at] === 1)
    .map((at) => `M${(at % modules.size) + QUIET_ZONE} ${Math.floor(at / modules.size) + QUIET_ZONE}h1v1h-1z`)
    .join('')
  return { size: modules.size + 2 * QUIET_ZONE, path }
}
