import sharp from 'sharp'
import { type DrawnIcon, iconsToIcns, iconsToIco } from './icon-files.ts'

/** Pixels a side. */
const SIDES = [16, 24, 32, 48, 64, 128, 256, 512, 1024] as const
/** Up to here hatching and dimension lines would be mud: the drawing has a plain form for it. */
const SMALL_TO = 32
/** The drawing is 1024 units wide and drawn at four times 72 dots per inch, so that every side is scaled down. */
const DENSITY = 288

/** The drawing in the form for this side. */
export function formFor(svg: string, side: number): string {
  if (side > SMALL_TO) return svg
  return svg
    .replace('<g id="large">', '<g id="large" display="none">')
    .replace('<g id="small" display="none">', '<g id="small">')
}

/** Draws the icon at every side that a platform asks for. */
export function drawIcons(svg: string): Promise<readonly DrawnIcon[]> {
  return Promise.all(
    SIDES.map(async (side) => {
      const picture = sharp(Buffer.from(formFor(svg, side)), { density: DENSITY }).resize(side, side)
      const [pixels, png] = await Promise.all([
        picture.clone().ensureAlpha().raw().toBuffer(),
        picture.clone().png({ compressionLevel: 9 }).toBuffer(),
      ])
      return { side, pixels, png }
    }),
  )
}

/** Every file that is made from the drawing, by its path beside it: Windows, macOS, Linux, and one for all else. */
export function iconPaths(icons: readonly DrawnIcon[]): ReadonlyMap<string, Buffer> {
  return new Map([
    ['icon.ico', iconsToIco(icons.filter(({ side }) => side <= 256))],
    ['icon.icns', iconsToIcns(icons)],
    ...icons.map(({ side, png }) => [`icons/${side}x${side}.png`, png] as const),
  ])
}
