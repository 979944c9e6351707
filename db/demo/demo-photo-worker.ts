import { parentPort } from 'node:worker_threads'
import { sharp } from '../photos/sharp.ts'
import { createDemoPhoto, type DemoPhoto } from './photos/create-demo-photo.ts'

// Each worker has one core.
sharp.concurrency(1)

parentPort?.on('message', (photo: DemoPhoto) => {
  // What goes wrong here is a defect: unhandled, it ends the worker with the error, which is what drawPhotos waits for.
  void createDemoPhoto(photo).then((bytes) => parentPort?.postMessage(bytes))
})
