import type { ReportBlock } from './owner-week-shapes.ts'

export const textBlock = (text: string): ReportBlock => ({ kind: 'text', text })

/** One for each text that says something. */
export const textBlocks = (texts: readonly string[]): readonly ReportBlock[] =>
  texts.filter((text) => text !== '').map(textBlock)
