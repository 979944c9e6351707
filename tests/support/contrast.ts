/**
 * Contrast ratio of two opaque sRGB colours, 1 to 21 (WCAG 2.2, 'contrast ratio').
 * Colours as '#rgb' or '#rrggbb'; anything else throws a RangeError.
 */
export function contrastRatio(colour: string, other: string): number {
  const [lighter, darker] = [relativeLuminance(colour), relativeLuminance(other)].toSorted((a, b) => b - a)
  return ((lighter ?? 0) + 0.05) / ((darker ?? 0) + 0.05)
}

/** 0 for black to 1 for white (WCAG 2.2, 'relative luminance'). */
export function relativeLuminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = channels(colour).map(linear)
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}

function channels(colour: string): readonly number[] {
  const hex = /^#([0-9a-f]{3}|[0-9a-f]{6})$/i.exec(colour)?.[1]
  if (hex === undefined) throw new RangeError(`${colour} is not a colour like #777 or #767676`)
  const pairs = hex.length === 3 ? hex.split('').map((digit) => digit + digit) : (hex.match(/../g) ?? [])
  return pairs.map((pair) => Number.parseInt(pair, 16) / 255)
}

function linear(channel: number): number {
  return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4
}
