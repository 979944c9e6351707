import { mix, step, type Ink, type Material, type Rgb } from './canvas.ts'
import type { Fields } from './noise.ts'
import type { Random } from './random.ts'

/** What metal in a workshop is covered with. Each call gives a fresh piece: shifted, turned and tinted by chance. */

/** Colours of primers, linear. */
export const RED_OXIDE: Rgb = [0.2, 0.045, 0.03]
export const GREY: Rgb = [0.2, 0.205, 0.21]
export const GREEN: Rgb = [0.13, 0.18, 0.08]
/** The black that new panels come in. */
export const TRANSPORT_BLACK: Rgb = [0.025, 0.025, 0.028]

export function bareSteel({ cloud, streak, soft }: Fields, random: Random): Material {
  const [x, y] = somewhere(random)
  const angle = random.between(-0.3, 0.3)
  const cos = Math.cos(angle)
  const sin = Math.sin(angle)
  return ({ u, v }, ink) => {
    const lines = streak.at((u * cos + v * sin) * 0.4 + x, (v * cos - u * sin) * 0.4 + y)
    const patches = soft.at(u * 0.16 + y, v * 0.16 + x)
    const tone =
      0.3 +
      0.16 * (lines - 0.5) +
      0.16 * (patches - 0.5) +
      0.07 * (cloud.near(u * 0.5 + x, v * 0.5 + y) - 0.5)
    set(ink, tone * 0.97, tone, tone * 1.05, 0.55, 0.34 + 0.3 * (patches - 0.5), (lines - 0.5) * 0.0014)
  }
}

/** Ground with a disc, stroke beside stroke in a few directions. @param depth of the scratches, 1 as left by the disc */
export function groundSteel({ streak, soft }: Fields, random: Random, depth = 1): Material {
  const [x, y] = somewhere(random)
  const lean = random.between(0, Math.PI)
  const strokes = Array.from({ length: 8 }, () => {
    const angle = lean + random.between(-0.7, 0.7)
    return [Math.cos(angle), Math.sin(angle), random.between(-0.2, 0.2)] as const
  })
  return ({ u, v }, ink) => {
    const patch = soft.at(u * 0.3 + x, v * 0.3 + y)
    const [cos, sin, bow] = strokes[(patch * 24) & 7] as (typeof strokes)[number]
    const along = u * cos + v * sin
    const lines = streak.at(along * 0.3 + x, (v * cos - u * sin + along * along * bow) * 0.45 + y) - 0.5
    const tone = 0.33 + 0.26 * lines + 0.2 * (patch - 0.5)
    set(ink, tone, tone, tone * 1.03, 0.55, 0.3 + 0.55 * lines, lines * 0.003 * depth)
  }
}

/** @param age 0 fresh and orange to 1 old, dark and scaly */
export function rust({ cloud, cloud2, grain }: Fields, random: Random, age: number): Material {
  const [x, y] = somewhere(random)
  return ({ u, v }, ink) => {
    const wide = cloud.near(u * 0.42 + x, v * 0.42 + y)
    const fine = cloud2.near(u * 0.9 + y, v * 0.9 + x)
    const speck = grain.near(u * 0.4 + x, v * 0.4 + y)
    const tone = wide * 0.55 + fine * 0.45 + (speck - 0.5) * 0.22 + 0.06 - age * 0.16
    rustColour(tone, ink)
    ink.gloss = 0.04
    ink.mirror = 0
    ink.bump = (fine - 0.5) * (0.012 + 0.05 * age) + (speck - 0.5) * 0.006
  }
}

/** Very dark brown, red-brown, orange, pale dust. */
function rustColour(tone: number, ink: Ink): void {
  const low = step(0.2, 0.42, tone)
  const middle = step(0.38, 0.6, tone)
  const high = step(0.62, 0.95, tone)
  ink.red = mix(mix(mix(0.03, 0.12, low), 0.27, middle), 0.48, high)
  ink.green = mix(mix(mix(0.019, 0.05, low), 0.115, middle), 0.27, high)
  ink.blue = mix(mix(mix(0.015, 0.028, low), 0.048, middle), 0.15, high)
}

/** Steel eaten into craters with rust left at their bottoms. */
export function pittedSteel(fields: Fields, random: Random): Material {
  const { pits, cloud } = fields
  const [x, y] = somewhere(random)
  const steel = bareSteel(fields, random)
  const scale: Ink = emptyInk()
  return (point, ink) => {
    const { u, v } = point
    const shallow = pits.near(u * 0.55 + x, v * 0.55 + y)
    const deep = pits.near(u * 0.33 + y, v * 0.33 + x) * step(0.42, 0.6, cloud.at(u * 0.3 + x, v * 0.3 + y))
    const depth = Math.max(shallow * 0.7, deep)
    steel(point, ink)
    rustColour(cloud.near(u + x, v + y) * 0.75, scale)
    const share = step(0.12, 0.6, depth + (cloud.near(u * 0.7 + y, v * 0.7 + x) - 0.5) * 0.5)
    const worn = 0.62
    set(
      ink,
      mix(ink.red * worn, scale.red, share),
      mix(ink.green * worn, scale.green, share),
      mix(ink.blue * worn, scale.blue, share),
      mix(0.35, 0.05, share),
      mix(0.16, 0, share),
      ink.bump - depth * 0.045,
    )
  }
}

export function paint(
  { cloud, soft, grain }: Fields,
  random: Random,
  [red, green, blue]: Rgb,
  gloss: number,
): Material {
  const [x, y] = somewhere(random)
  return ({ u, v }, ink) => {
    const dust = (cloud.near(u * 0.35 + x, v * 0.35 + y) - 0.5) * 0.14 * (1.25 - gloss) + 1
    const peel = soft.at(u * 2.2 + x, v * 2.2 + y) - 0.5
    const speck = (grain.near(u * 0.39 + x, v * 0.39 + y) - 0.5) * 0.03
    set(
      ink,
      red * dust + speck * red,
      green * dust + speck * green,
      blue * dust + speck * blue,
      0.25 + gloss * 0.7,
      gloss * 0.42,
      peel * 0.0007,
    )
  }
}

/** Sprayed matt coats: a little uneven in thickness, with dust in them. */
export function primer({ soft, cloud2, grain }: Fields, random: Random, [red, green, blue]: Rgb): Material {
  const [x, y] = somewhere(random)
  return ({ u, v }, ink) => {
    const coat =
      1 +
      (soft.at(u * 0.24 + x, v * 0.24 + y) - 0.5) * 0.34 +
      (cloud2.near(u * 0.5 + y, v * 0.5 + x) - 0.5) * 0.12
    const dust = (grain.near(u * 0.42 + x, v * 0.42 + y) - 0.5) * 0.07
    const tone = coat + dust
    set(ink, red * tone, green * tone, blue * tone, 0.2, 0.015, dust * 0.03)
  }
}

/** Sanded filler with scratches and pinholes. */
export function filler(
  { cloud, streak, grain, pits }: Fields,
  random: Random,
  [red, green, blue]: Rgb,
): Material {
  const [x, y] = somewhere(random)
  return ({ u, v }, ink) => {
    const scratch = streak.at(u * 0.5 + v * 0.2 + x, v * 0.5 - u * 0.2 + y) - 0.5
    const tone =
      1 +
      (cloud.near(u * 0.4 + x, v * 0.4 + y) - 0.5) * 0.3 +
      scratch * 0.14 +
      (grain.near(u * 0.4, v * 0.4) - 0.5) * 0.08
    const hole = step(0.55, 0.8, pits.near(u * 1.1 + y, v * 1.1 + x)) * 0.6
    const light = tone * (1 - hole)
    set(ink, red * light, green * light, blue * light, 0.1, 0, scratch * 0.003 - hole * 0.012)
  }
}

/** Brushed-on body sealer. */
export function sealer({ streak, cloud }: Fields, random: Random, [red, green, blue]: Rgb): Material {
  const [x, y] = somewhere(random)
  return ({ u, v }, ink) => {
    const brush = streak.at(u * 0.3 + x, v * 0.3 + y) - 0.5
    const tone = 1 + brush * 0.22 + (cloud.near(u * 0.6 + x, v * 0.6 + y) - 0.5) * 0.2
    set(ink, red * tone, green * tone, blue * tone, 0.32, 0.02, brush * 0.022)
  }
}

/** Black, lumpy and dusty. */
export function underseal({ cloud, cloud2 }: Fields, random: Random): Material {
  const [x, y] = somewhere(random)
  return ({ u, v }, ink) => {
    const lumps = cloud.near(u * 0.8 + x, v * 0.8 + y)
    const dust = step(0.5, 0.8, cloud2.near(u * 0.5 + y, v * 0.5 + x)) * 0.05
    const tone = 0.022 + 0.02 * lumps + dust
    set(ink, tone * 1.08, tone, tone * 0.92, 0.3, 0.02, (lumps - 0.5) * 0.05)
  }
}

/** The workshop behind, out of focus. */
export function behind({ soft }: Fields, random: Random): Material {
  const [x, y] = somewhere(random)
  const warm = random.between(0.85, 1.15)
  return ({ u, v }, ink) => {
    const tone = 0.03 + 0.1 * step(0.45, 0.8, soft.at(u * 0.13 + x, v * 0.13 + y))
    set(ink, tone * warm, tone, tone / warm, 0, 0, 0)
  }
}

/** One plain colour. */
export function plain([red, green, blue]: Rgb, gloss: number, mirror: number): Material {
  return (_p, ink) => set(ink, red, green, blue, gloss, mirror, 0)
}

function set(
  ink: Ink,
  red: number,
  green: number,
  blue: number,
  gloss: number,
  mirror: number,
  bump: number,
): void {
  ink.red = red
  ink.green = green
  ink.blue = blue
  ink.gloss = gloss
  ink.mirror = mirror
  ink.bump = bump
}

function emptyInk(): Ink {
  return { red: 0, green: 0, blue: 0, gloss: 0, mirror: 0, bump: 0 }
}

function somewhere(random: Random): readonly [number, number] {
  return [random.between(0, 8), random.between(0, 8)]
}
