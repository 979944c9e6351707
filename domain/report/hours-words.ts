import { rounded } from '../text/words.ts'
import type { HoursBand } from '../views/variation-shapes.ts'

/** 'half an hour', '1 hour', '2.5 hours', 'no hours'; person-hours, to a quarter where there is one. */
export function hoursSaid(value: number): string {
  if (value === 0.5) return 'half an hour'
  if (value === 0) return 'no hours'
  return value === 1 ? '1 hour' : `${countSaid(value)} hours`
}

/** 'most likely 6 hours; it may be as few as 4 or as many as 11', of a band on one side of nothing. */
export function bandSaid({ low, likely, high }: HoursBand): string {
  const [least, most] = [
    low < likely ? fewSaid(low) : '',
    high > likely ? `as many as ${countSaid(high)}` : '',
  ]
  if (least === '' && most === '') return hoursSaid(likely)
  return `most likely ${hoursSaid(likely)}; it may be ${[least, most].filter((words) => words !== '').join(' or ')}`
}

/** What a variation asks for or gives back, as one sentence. */
export function variationHours({ low, likely, high }: HoursBand): string {
  if (likely === 0) return 'In all it takes as many hours as were agreed: some steps take more, others less.'
  const isMore = likely > 0
  const band = isMore ? { low, likely, high } : { low: -high, likely: -likely, high: -low }
  const [way, other] = isMore ? ['more', 'less'] : ['less', 'more']
  if (low === high) return `It takes ${hoursSaid(band.likely)} ${way} than was agreed.`
  const begin = `It takes ${way} time than was agreed`
  if (band.low >= 0) return `${begin}: ${bandSaid(band)}.`
  const most = band.high > band.likely ? ` or as many as ${countSaid(band.high)} ${way}` : ''
  return `${begin}: most likely ${hoursSaid(band.likely)}; it may be ${hoursSaid(-band.low)} ${other}${most}.`
}

const fewSaid = (value: number): string => (value === 0 ? 'none at all' : `as few as ${countSaid(value)}`)

const countSaid = (value: number): string => String(rounded(value, 2))
