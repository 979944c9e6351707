import { Buffer } from 'node:buffer'
import { availableParallelism } from 'node:os'
import { Worker } from 'node:worker_threads'
import type { DemoPhoto } from './create-demo-photo.ts'

export interface DemoStudio {
  /** As `createDemoPhoto`, off the calling thread; many may be asked for at once. @throws when a worker fails */
  photograph(photo: DemoPhoto): Promise<Buffer>
  close(): Promise<void>
}

export interface StudioTask {
  readonly number: number
  readonly photo: DemoPhoto
}

export type StudioAnswer =
  | { readonly number: number; readonly bytes: Uint8Array }
  | { readonly number: number; readonly failure: string }

/** Every core draws, up to four: beyond that the disk that takes the photos is slower. */
export function createDemoStudio(threads = Math.min(4, availableParallelism())): DemoStudio {
  const waiting = new Map<number, PromiseWithResolvers<Buffer>>()
  const workers = Array.from({ length: threads }, () => startWorker(waiting))
  let number = 0
  return {
    photograph(photo) {
      const answer = Promise.withResolvers<Buffer>()
      number += 1
      waiting.set(number, answer)
      workers[number % threads]?.postMessage({ number, photo } satisfies StudioTask)
      return answer.promise
    },
    close: async () => {
      await Promise.all(workers.map((worker) => worker.terminate()))
    },
  }
}

function startWorker(waiting: Map<number, PromiseWithResolvers<Buffer>>): Worker {
  // A literal, so that the build finds the worker (build/bring-along.ts).
  const url = new URL('./demo-studio-worker.ts', import.meta.url)
  const worker = new Worker(url)
  worker.on('message', (answer: StudioAnswer) => {
    const asked = waiting.get(answer.number)
    waiting.delete(answer.number)
    if ('bytes' in answer) asked?.resolve(Buffer.from(answer.bytes.buffer as ArrayBuffer))
    else asked?.reject(new Error(answer.failure))
  })
  worker.on('error', (error) => {
    for (const asked of waiting.values()) asked.reject(error)
    waiting.clear()
  })
  return worker
}
