import { sharp } from '../photos/sharp.ts'
import type { DemoPhoto } from './photos/create-demo-photo.ts'

const WIDTH = 64
const HEIGHT = 48

/** Like `drawPhotos`, for those who need photos and never look at them: a small patch of one colour each. */
export async function drawTinyPhotos(
  photos: readonly DemoPhoto[],
  take: (bytes: Uint8Array, index: number) => Promise<void>,
): Promise<void> {
  for (const [index, photo] of photos.entries()) await take(await drawTiny(photo, index), index)
}

/** The number of the photo stands in its bytes, so that no two are the same. */
function drawTiny({ takenLocal, offset }: DemoPhoto, index: number): Promise<Uint8Array> {
  const background = { r: 90 + (index % 120), g: 110, b: 120 }
  return sharp({ create: { width: WIDTH, height: HEIGHT, channels: 3, background } })
    .withExif({
      IFD0: { ImageDescription: `photo ${index}` },
      IFD2: {
        DateTimeOriginal: takenLocal.replaceAll('-', ':').replace('T', ' '),
        OffsetTimeOriginal: offset,
      },
    })
    .jpeg()
    .toBuffer()
}
