import { type OwnerWeek, photosOf, type PhotoPlate } from '../../domain/report/owner-week-shapes.ts'

/** All that a report says. */
export function textsOf(of: OwnerWeek): readonly string[] {
  const plates = (all: readonly PhotoPlate[]) =>
    all.flatMap(photosOf).flatMap(({ caption, taken }) => [caption, taken])
  const blocks = of.sections.flatMap((section) => section.blocks)
  return [
    of.workshop,
    of.title,
    of.subtitle,
    of.written,
    of.greeting,
    ...of.opening,
    ...of.words,
    ...of.cautions,
    ...of.sections.map(({ heading }) => heading),
    ...blocks.flatMap((block): readonly string[] => {
      switch (block.kind) {
        case 'text':
          return [block.text]
        case 'list':
          return block.items
        case 'repair':
          return [block.title, ...block.texts, ...plates(block.plates)]
        case 'plates':
          return plates(block.plates)
        case 'standing':
          return [block.title, block.text]
        case 'figures':
          return [...block.head, ...block.rows.flatMap(({ label, figures }) => [label, ...figures])]
        case 'question':
          return [block.title, ...block.texts, block.hours, ...plates(block.plates)]
      }
    }),
  ]
}
