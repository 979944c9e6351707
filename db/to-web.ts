import type { Readable } from 'node:stream'
import { ReadableStream as WebStream } from 'node:stream/web'

type Bytes = Uint8Array<ArrayBuffer>

/**
 * A stream of bytes as the web has it, read as it is asked for; giving it up destroys the source. Node's own `Readable.toWeb`
 * pushes: bytes that come just after a reader has given up are thrown out of an event, which ends the process. Its
 * `ReadableStream.from` leaves a source open that is given up before the first read.
 */
export function toWeb(source: Readable): ReadableStream<Bytes> {
  // The source keeps an error that comes before anyone reads, and the first read meets it.
  source.on('error', () => {})
  const chunks = source[Symbol.asyncIterator]() as AsyncIterator<Bytes, undefined>
  const stream = new WebStream<Bytes>(
    {
      async pull(controller) {
        const { done, value } = await chunks.next()
        if (done) controller.close()
        else controller.enqueue(value)
      },
      cancel() {
        source.destroy()
      },
    },
    { highWaterMark: 0 },
  )
  return stream as ReadableStream<Bytes>
}
