/* Stands in for the image worker: fails in the way that the path it is asked about names. */
import process from 'node:process'
import { parentPort } from 'node:worker_threads'

parentPort?.on('message', (job: { readonly path: string }) => {
  if (job.path === 'throw') throw new Error('a defect in the decoder')
  if (job.path === 'exit') process.exit(7)
  if (job.path === 'exhaust') exhaust()
  if (job.path !== 'hang') parentPort?.postMessage({ ok: true, value: job.path })
})

/** In small steps: one large allocation past the limit would end the whole process before the worker can be stopped. */
function exhaust(): never {
  let kept: unknown = null
  for (;;) kept = { kept }
}
