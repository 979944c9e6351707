import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { iconsToIcns } from '../../build/icon-files.ts'
import { drawIcons, formFor, iconPaths } from '../../build/icons.ts'

const build = fileURLToPath(new URL('../../build/', import.meta.url))
const svg = readFileSync(join(build, 'icon.svg'), 'utf8')

/** icoutils and icnsutils: readers of both containers that are not ours. */
const hasTools = ['icotool', 'icns2png'].every(
  (tool) => spawnSync(tool, ['--version'], { stdio: 'ignore' }).error === undefined,
)
if (!hasTools)
  console.warn(
    'THE ICON FILES WERE NOT READ: install icoutils and icnsutils (Debian: apt-get install) and run again.',
  )

/** Mean difference of two pictures a channel and pixel, of 255; with the same size. */
async function difference(one: Buffer, other: Buffer): Promise<number> {
  const [a, b] = await Promise.all([one, other].map((png) => sharp(png).ensureAlpha().raw().toBuffer()))
  if (a?.length !== b?.length) return 255
  return a!.reduce((sum, value, index) => sum + Math.abs(value - b![index]!), 0) / a!.length
}

/** What a tool takes out of a container, by the side of each picture. */
function unpack(tool: string, file: string): ReadonlyMap<number, Buffer> {
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-icons-'))
  try {
    const { status, stderr } = spawnSync(tool, ['-x', '-o', folder, join(build, file)], { encoding: 'utf8' })
    if (status !== 0) throw new Error(stderr)
    return new Map(
      readdirSync(folder).map((name) => [
        Number(/(\d+)x\d+x32\.png$/.exec(name)?.[1]),
        readFileSync(join(folder, name)),
      ]),
    )
  } finally {
    rmSync(folder, { recursive: true })
  }
}

const kept = (side: number): Buffer => readFileSync(join(build, `icons/${side}x${side}.png`))

describe('the icons', () => {
  test('are those that the one drawing gives', async () => {
    const drawn = iconPaths(await drawIcons(svg))
    expect([...drawn.keys()].filter((path) => path.startsWith('icons/')).sort()).toEqual(
      readdirSync(join(build, 'icons'))
        .map((name) => `icons/${name}`)
        .sort(),
    )
    for (const [path, png] of drawn)
      if (path.endsWith('.png'))
        // Other processors round differently by one step here and there.
        expect(await difference(png, readFileSync(join(build, path))), path).toBeLessThan(0.1)
  })

  test('have the plain form where lines of the full one would be under a pixel', () => {
    expect(formFor(svg, 32)).not.toBe(svg)
    expect(formFor(svg, 32)).toContain('<g id="small">')
    expect(formFor(svg, 32)).toContain('<g id="large" display="none">')
    expect(formFor(svg, 48)).toBe(svg)
  })

  test('keep the plug weld apart from both sheets at 16 pixels', async () => {
    const { data, info } = await sharp(kept(16)).ensureAlpha().raw().toBuffer({ resolveWithObject: true })
    const at = (x: number, y: number) => [
      ...data.subarray((y * info.width + x) * 4, (y * info.width + x) * 4 + 3),
    ]
    const [weld, upper, lower] = [at(5, 6), at(3, 6), at(9, 9)]
    expect(weld[0]! - weld[2]!).toBeGreaterThan(120)
    expect(Math.max(...upper)).toBeLessThan(60)
    expect(Math.min(...lower)).toBeGreaterThan(90)
  })

  test('are refused as an .icns where a side is missing', async () => {
    const icons = await drawIcons(svg)
    expect(() => iconsToIcns(icons.filter(({ side }) => side !== 64))).toThrow('no icon of 64 pixels')
  })
})

describe.skipIf(!hasTools)('the containers', () => {
  test('hold in the .ico every side from 16 to 256, as icotool reads them', async () => {
    const read = unpack('icotool', 'icon.ico')
    expect([...read.keys()].sort((a, b) => a - b)).toEqual([16, 24, 32, 48, 64, 128, 256])
    for (const [side, png] of read) expect(await difference(png, kept(side)), String(side)).toBe(0)
  })

  test('hold in the .icns the sides that icns2png knows', async () => {
    const read = unpack('icns2png', 'icon.icns')
    expect([...read.keys()].sort((a, b) => a - b)).toEqual([16, 32, 256, 512, 1024])
    for (const [side, png] of read) expect(await difference(png, kept(side)), String(side)).toBe(0)
  })
})

test('the .icns has every type that macOS asks for, one after another to its end', async () => {
  const bytes = readFileSync(join(build, 'icon.icns'))
  expect([bytes.toString('latin1', 0, 4), bytes.readUInt32BE(4)]).toEqual(['icns', bytes.length])
  const sides: [string, number | undefined][] = []
  for (let at = 8; at < bytes.length; at += bytes.readUInt32BE(at + 4)) {
    const type = bytes.toString('latin1', at, at + 4)
    const content = bytes.subarray(at + 8, at + bytes.readUInt32BE(at + 4))
    if (type.startsWith('ic')) sides.push([type, (await sharp(content).metadata()).width])
  }
  expect(Object.fromEntries(sides)).toEqual({
    ic07: 128,
    ic08: 256,
    ic09: 512,
    ic10: 1024,
    ic11: 32,
    ic12: 64,
    ic13: 256,
    ic14: 512,
  })
})
