import { ACCENT_INK, paperTones } from './tones.ts'
import type { TextStyle } from './typesetter.ts'

/** Sizes in points; upright and in the ink's colour unless said. */
export const style = (size: number, leading: number, more: Partial<TextStyle> = {}): TextStyle => ({
  size,
  leading,
  bold: false,
  colour: paperTones.ink,
  ...more,
})

export const workshopStyle = style(12, 16, { bold: true })
export const titleStyle = style(21, 26, { bold: true })
export const subtitleStyle = style(10.5, 15, { colour: paperTones.quiet })
export const headingStyle = style(12.5, 17, { bold: true })
export const smallHeadingStyle = style(9.8, 14, { bold: true })
export const bodyStyle = style(9.8, 14)
export const captionStyle = style(8, 10.6, { colour: paperTones.quiet })
export const captionLeadStyle = style(8, 10.6, { bold: true })
export const smallStyle = style(7.8, 10.8, { colour: paperTones.quiet })
export const warnStyle = style(10.5, 14, { bold: true, colour: ACCENT_INK })
export const warnSmallStyle = style(7.8, 10.8, { bold: true, colour: ACCENT_INK })
export const questionTitleStyle = style(10.8, 15, { bold: true, colour: ACCENT_INK })
export const figureHeadStyle = style(8.4, 12, { colour: paperTones.quiet })
