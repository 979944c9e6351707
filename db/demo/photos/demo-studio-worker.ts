/* Draws demo photos for demo-studio.ts, one after the other. */
import { parentPort } from 'node:worker_threads'
import { createDemoPhoto } from './create-demo-photo.ts'
import type { StudioAnswer, StudioTask } from './demo-studio.ts'

let last: Promise<void> = Promise.resolve()

parentPort?.on('message', (task: StudioTask) => {
  last = last.then(async () => {
    const answer = await photograph(task)
    parentPort?.postMessage(answer, 'bytes' in answer ? [answer.bytes.buffer as ArrayBuffer] : [])
  })
})

async function photograph({ number, photo }: StudioTask): Promise<StudioAnswer> {
  try {
    return { number, bytes: Uint8Array.from(await createDemoPhoto(photo)) }
  } catch (error) {
    return { number, failure: error instanceof Error ? error.message : String(error) }
  }
}
