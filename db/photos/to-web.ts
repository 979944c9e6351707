import type { Readable } from 'node:stream'
import { ReadableStream as WebStream } from 'node:stream/web'

/**
 * A stream of bytes as the web has it, read as it is asked for; giving it up destroys the source. Node's own `Readable.toWeb`
 * pushes: bytes that come just after a reader has given up are thrown out of an event, which ends the process.
 */
export function toWeb(source: Readable): ReadableStream<Uint8Array<ArrayBuffer>> {
  return WebStream.from(source) as ReadableStream<Uint8Array<ArrayBuffer>>
}
