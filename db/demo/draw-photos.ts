import { availableParallelism } from 'node:os'
import { Worker } from 'node:worker_threads'
import type { DemoPhoto } from './photos/create-demo-photo.ts'

/** Draws photos off the host's event loop; started and fed by `drawPhotos`. */
const photoWorkerUrl = new URL('./demo-photo-worker.ts', import.meta.url)

/** More would only help where nobody waits. */
const MOST_WORKERS = 4

/**
 * Draws all photos, several at a time, and hands on the bytes of each as it is done; the next is drawn meanwhile.
 *
 * @throws what drawing or `take` throws; the others are given up then
 */
export async function drawPhotos(
  photos: readonly DemoPhoto[],
  take: (bytes: Uint8Array, index: number) => Promise<void>,
): Promise<void> {
  let next = 0
  const drawSome = async (): Promise<void> => {
    const worker = new Worker(photoWorkerUrl)
    try {
      let taking = Promise.resolve()
      for (let photo = photos[next]; photo; photo = photos[next]) {
        const index = next
        next += 1
        const [bytes] = await Promise.all([draw(worker, photo), taking])
        taking = take(bytes, index)
      }
      await taking
    } catch (error) {
      next = photos.length
      throw error
    } finally {
      await worker.terminate()
    }
  }
  await Promise.all(Array.from({ length: Math.min(availableParallelism(), MOST_WORKERS) }, drawSome))
}

/** An error in the worker ends it and is thrown here. */
function draw(worker: Worker, photo: DemoPhoto): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const stop = () => {
      worker.off('message', done)
      worker.off('error', failed)
    }
    const done = (bytes: Uint8Array) => {
      stop()
      resolve(bytes)
    }
    const failed = (error: unknown) => {
      stop()
      reject(error instanceof Error ? error : new Error(String(error)))
    }
    worker.on('message', done)
    worker.on('error', failed)
    worker.postMessage(photo)
  })
}
