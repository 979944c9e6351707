import { style } from './print-styles.ts'
import { paperTones } from './tones.ts'

export const bookTitleStyle = style(34, 40, { bold: true })
export const bookKindStyle = style(13, 18, { colour: paperTones.quiet })
export const bookSubtitleStyle = style(14, 20)
export const chapterStyle = style(21, 26, { bold: true })
export const chapterSubtitleStyle = style(10.5, 15, { colour: paperTones.quiet })
export const sectionStyle = style(12, 16, { bold: true })
export const proseStyle = style(9.6, 13.6)
export const leadStyle = style(8.4, 13.6, { colour: paperTones.quiet })
export const narrowLeadStyle = style(8.4, 11.5, { colour: paperTones.quiet })
export const cellStyle = style(8.8, 12)
export const cellHeadStyle = style(8, 11, { colour: paperTones.quiet })
export const contentsStyle = style(10, 16)
export const digestStyle = style(8.4, 12, { colour: paperTones.quiet })
