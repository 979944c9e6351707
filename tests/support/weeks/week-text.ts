import type { OwnerWeek, PhotoPlate, ReportBlock } from '../../../domain/report/owner-week-shapes.ts'

/** A report as its reader reads it, top to bottom; photos as their captions, drawings left out. */
export function weekText(week: OwnerWeek): string {
  return [
    `${week.title}. ${week.subtitle}. Report ${week.number}`,
    week.greeting,
    ...week.opening,
    ...week.words,
    ...week.sections.flatMap(({ heading, blocks }) => ['', `## ${heading}`, ...blocks.flatMap(blockText)]),
    '',
    ...week.cautions,
  ].join('\n')
}

function blockText(block: ReportBlock): readonly string[] {
  switch (block.kind) {
    case 'text':
      return [block.text]
    case 'list':
      return block.items.map((item) => `- ${item}`)
    case 'repair':
      return [`* ${block.title}`, ...block.texts, ...block.plates.map(plateText)]
    case 'question':
      return [`* ${block.title} (${block.hours})`, ...block.texts, ...block.plates.map(plateText)]
    case 'standing':
      return [`* ${block.title}`, block.text]
    case 'figures':
      return [block.head, ...block.rows.map(({ label, figures }) => [label, ...figures])].map((row) =>
        row.filter((cell) => cell !== '').join(' | '),
      )
    case 'plates':
      return block.plates.map(plateText)
  }
}

const plateText = (plate: PhotoPlate): string =>
  plate.kind === 'pair'
    ? `[before: ${plate.before.caption}, ${plate.before.taken}] [after: ${plate.after.caption}, ${plate.after.taken}]`
    : `[photo: ${plate.photo.caption}, ${plate.photo.taken}]`

export interface Told {
  /** What it is told of; '' for what stands by itself. */
  readonly of: string
  readonly texts: readonly string[]
}

/** Everything of a report that must be whole sentences, block by block. */
export function weekTold(week: OwnerWeek): readonly Told[] {
  return [
    { of: '', texts: week.opening },
    ...week.sections.flatMap(({ heading, blocks }) =>
      blocks.map((block) => ({
        of: 'title' in block ? `${heading}, ${block.title}` : '',
        texts: toldIn(block),
      })),
    ),
    { of: '', texts: week.cautions },
  ]
}

function toldIn(block: ReportBlock): readonly string[] {
  switch (block.kind) {
    case 'text':
    case 'standing':
      return [block.text]
    case 'list':
      return block.items
    case 'repair':
    case 'question':
      return block.texts
    case 'figures':
    case 'plates':
      return []
  }
}

export const repeated = (texts: readonly string[]): readonly string[] =>
  texts.filter((each, index) => texts.indexOf(each) !== index)

export const isEmpty = (block: ReportBlock): boolean => {
  switch (block.kind) {
    case 'text':
      return block.text === ''
    case 'list':
      return block.items.length === 0
    case 'repair':
      return block.title === '' || (block.texts.length === 0 && block.plates.length === 0)
    case 'question':
      return block.title === '' || block.texts.length === 0
    case 'standing':
      return block.title === '' || block.text === ''
    case 'figures':
      return block.rows.length === 0
    case 'plates':
      return block.plates.length === 0
  }
}
