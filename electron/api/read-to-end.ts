/**
 * Reads on after a refusal, and drops it: a browser that is still sending when the connection is closed shows a broken
 * connection instead of the answer.
 */
export async function readToEnd(body: ReadableStream<Uint8Array> | null, mostBytes: number): Promise<void> {
  if (body === null) return
  let dropped = 0
  try {
    for await (const chunk of body) {
      dropped += chunk.byteLength
      if (dropped > mostBytes) return
    }
  } catch {
    // The sender is gone: there is nobody left to answer.
  }
}

/** What is sent, as it comes; nothing for a request without a body. Whoever ends the reading leaves the rest to `readToEnd`. */
export const uploadOf = (body: ReadableStream<Uint8Array> | null): AsyncIterable<Uint8Array> =>
  body?.values({ preventCancel: true }) ?? nothing()

async function* nothing(): AsyncGenerator<Uint8Array> {
  yield* []
}
