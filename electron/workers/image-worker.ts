/*
 * Decodes photos off the host's event loop; started and fed by image-pool.ts. An error that is no expected answer ends
 * the worker, and the pool reports it.
 */
import { parentPort } from 'node:worker_threads'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { sharp } from '../../db/photos/sharp.ts'
import { makeSizes } from '../../db/photos/sizes.ts'
import type { ImageAnswers, ImageJob } from './image-job.ts'

// One thread leaves the other cores to the host.
sharp.concurrency(1)

parentPort?.on('message', (job: ImageJob) => {
  void answer(job).then((result) => parentPort?.postMessage(result))
})

function answer(job: ImageJob): Promise<ImageAnswers[ImageJob['kind']]> {
  switch (job.kind) {
    case 'inspect':
      return inspectPhoto(job.path)
    case 'make-sizes':
      return makeSizes(job.folder, job.sha256)
  }
}
