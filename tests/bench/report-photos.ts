/*
 * Makes large photos for the bench of reports, in a process of its own so that their making is not in its memory:
 * node tests/bench/report-photos.ts FOLDER COUNT. Writes photo-N.jpg and photo-N-report.jpg.
 */
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import process from 'node:process'
import { PHOTO_SIZES } from '../../db/photos/photo-size.ts'
import { sharp } from '../../db/photos/sharp.ts'

const [folder = '.', count = '1'] = process.argv.slice(2)

/** 12 megapixels with rough and smooth parts, as rusted metal has. */
async function photo(index: number): Promise<Buffer> {
  const grain = { type: 'gaussian', mean: 120 + index, sigma: 70 } as const
  const rough = await sharp({
    create: { width: 250, height: 188, channels: 3, background: '#555', noise: grain },
  })
    .resize(4000, 3000, { kernel: 'cubic' })
    .png({ compressionLevel: 1 })
    .toBuffer()
  return sharp(rough)
    .modulate({ hue: index * 9 })
    .jpeg({ quality: 90 })
    .toBuffer()
}

for (let index = 0; index < Number(count); index += 1) {
  const jpeg = await photo(index)
  const { longestSide } = PHOTO_SIZES.report
  const report = await sharp(jpeg)
    .resize(longestSide, longestSide, { fit: 'inside' })
    .jpeg({ quality: 78, mozjpeg: true })
    .toBuffer()
  await writeFile(join(folder, `photo-${index}.jpg`), jpeg)
  await writeFile(join(folder, `photo-${index}-report.jpg`), report)
}
