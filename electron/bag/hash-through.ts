import { createHash } from 'node:crypto'
import { Transform } from 'node:stream'

export interface Hashed {
  readonly bytes: number
  /** Lower-case hexadecimal. */
  readonly sha256: string
}

/**
 * Hands bytes on as they come and reckons their SHA-256 on the way.
 *
 * @param onEnd gets the digest before the end is handed on; what it throws ends the stream
 */
export function hashThrough(onEnd: (hashed: Hashed) => void): Transform {
  const hash = createHash('sha256')
  let bytes = 0
  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      hash.update(chunk)
      bytes += chunk.byteLength
      done(null, chunk)
    },
    flush(done) {
      try {
        onEnd({ bytes, sha256: hash.digest('hex') })
        done()
      } catch (error) {
        done(error instanceof Error ? error : new Error(String(error)))
      }
    },
  })
}
