import { labourOfLines } from '../money/labour-of-lines.ts'
import { moneyWords } from '../text/money-words.ts'
import { hours } from '../text/words.ts'
import { localDateOf } from '../time/zone.ts'
import type { HoursBand } from '../views/variation-shapes.ts'
import type { FigureRow, ReportBlock } from './owner-week-shapes.ts'
import { tradeWords } from '../language/english.ts'
import type { LetterTelling } from './variation-telling.ts'

const ENDS = ['low', 'likely', 'high'] as const
const BAND_HEAD = ['at the least', 'most likely', 'at the most']

/** Hours by step of the work, and money where it is known. */
export function figureBlocks(telling: LetterTelling): readonly ReportBlock[] {
  const steps = stepRows(telling)
  const money = moneyRows(telling)
  return [
    ...(steps.length === 0
      ? []
      : [{ kind: 'figures' as const, head: ['Hours of work', ...BAND_HEAD], rows: steps }]),
    ...(money.length === 0 ? [] : [{ kind: 'figures' as const, head: ['Money', ...BAND_HEAD], rows: money }]),
  ]
}

function stepRows({ car, view }: LetterTelling): readonly FigureRow[] {
  const repairs = new Set(view.lines.map(({ repairId }) => repairId)).size
  const rows = view.lines.map(({ target, what, asked }): FigureRow => {
    const name = target.kind === 'gate' ? car.repairs.get(target.repairId)?.plan.name : undefined
    const work = target.kind === 'gate' ? tradeWords.gateWorks[target.gate] : what
    const label = name === undefined || repairs === 1 ? work : `${name}: ${work}`
    return { label, figures: figuresOf(asked, hours), isTotal: false }
  })
  if (rows.length < 2) return rows
  return [...rows, { label: 'Together', figures: figuresOf(view.asked, hours), isTotal: true }]
}

/** The hours at the rates of the day on which it was answered, or of today, then what is bought. Empty when nothing is known. */
function moneyRows(telling: LetterTelling): readonly FigureRow[] {
  const { view, context } = telling
  const { currency } = context.workshop
  const words = (amount: number) => moneyWords(amount, currency)
  const labour = labourBand(telling)
  const costs = view.costs ?? []
  const goods = costs.reduce((sum, { asked }) => sum + asked, 0)
  const rows = [
    ...(labour === null ? [] : [{ label: 'The hours, at the rates of the day', band: labour }]),
    ...costs.map(({ name, asked }) => ({ label: name, band: alike(asked) })),
  ].map(({ label, band }): FigureRow => ({ label, figures: figuresOf(band, words), isTotal: false }))
  if (rows.length < 2) return rows
  const whole = labour ?? alike(0)
  const total = { low: whole.low + goods, likely: whole.likely + goods, high: whole.high + goods }
  const label = labour === null ? 'Together, without the hours' : 'Together'
  return [...rows, { label, figures: figuresOf(total, words), isTotal: true }]
}

/** Null as long as the hours of one line have no rate. */
function labourBand({ car, view, context }: LetterTelling): HoursBand | null {
  const { workshop, today } = context
  const date = view.decided === null ? today : localDateOf(view.decided, workshop.zone)
  const [low, likely, high] = ENDS.map((end) => {
    const lines = view.lines.map(({ target, asked }) => ({ target, hours: asked[end] }))
    return labourOfLines(car, lines, date, workshop)
  }) as [number | null, number | null, number | null]
  return low === null || likely === null || high === null ? null : { low, likely, high }
}

const alike = (amount: number): HoursBand => ({ low: amount, likely: amount, high: amount })

const figuresOf = (band: HoursBand, words: (value: number) => string): readonly string[] =>
  ENDS.map((end) => words(band[end]))
