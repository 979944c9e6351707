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
