import type { Readable } from 'node:stream'
import { hashThrough } from './hash-through.ts'

/**
 * A file's bytes as they come, whose end is an error when they are not what they must be.
 *
 * @param toError what is thrown for an error of the content itself, or for null when its digest is another
 */
export function checkedStream(
  content: Readable,
  sha256: string,
  toError: (error: unknown) => Error,
): Readable {
  const check = hashThrough((hashed) => {
    if (hashed.sha256 !== sha256) throw toError(null)
  })
  content.once('error', (error) => check.destroy(toError(error)))
  // A short file is through before anyone reads here: the error is kept by the stream and met by its reader, and must not
  // leave as an event that nobody listens to, which would end the program.
  check.on('error', () => {})
  check.once('close', () => content.destroy())
  return content.pipe(check)
}
