/* Draws build/icon.png from build/icon.svg, at the size every platform's icons are made from. Run after a change. */
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'

const beside = (name: string) => fileURLToPath(new URL(name, import.meta.url))

await sharp(beside('./icon.svg')).resize(1024, 1024).png({ compressionLevel: 9 }).toFile(beside('./icon.png'))
