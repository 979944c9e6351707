/*
 * Started by the kill test: stores photo after photo and prints the digest of each one that was answered with success.
 * Arguments: the photo folder, and the number from which the photos are numbered.
 */
import process from 'node:process'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoStore } from '../../db/photos/photo-store.ts'
import { createTestPhoto } from './images.ts'

const [folder = '', first = '0'] = process.argv.slice(2)
const store = await openPhotoStore(folder, { inspect: inspectPhoto })
if (!store.ok) throw new Error(store.problem.message)
for (let number = Number(first); ; number++) {
  const photo = await createTestPhoto({
    width: 160 + (number % 90),
    height: 120,
    color: `hsl(${number % 360}, 40%, 50%)`,
  })
  const added = await store.value.add(inPieces(photo))
  if (!added.ok) throw new Error(added.problem.message)
  process.stdout.write(`${added.value.sha256}\n`)
}

async function* inPieces(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += 1500) {
    await new Promise((resolve) => setImmediate(resolve))
    yield bytes.subarray(at, at + 1500)
  }
}
