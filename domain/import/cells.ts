import { dateSchema, threePointSchema, type ThreePoint } from '../facts/shapes.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { isLocalDate } from '../time/local-date.ts'
import { readWith, shortened } from './columns.ts'

/** '2026-11-25', or '25.11.2026' as day, month, year. Forms with strokes can be read two ways and are refused. */
export function readDate(cell: string): Result<string> {
  const [, day, month, year] = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/.exec(cell) ?? []
  const date = year === undefined ? cell : `${year}-${pad(month)}-${pad(day)}`
  if (isLocalDate(date)) return readWith(dateSchema, date)
  return refuse(
    'bad-input',
    `'${shortened(cell)}' is not a date that can be read for certain.`,
    'Write it as 2026-11-25 (year, month, day) or 25.11.2026 (day, month, year).',
  )
}

/** '8:00' or '16:30' on the workshop's clock, as HH:MM. */
export function readTime(cell: string): Result<string> {
  const [, hour, minute] = /^(\d{1,2}):(\d{2})$/.exec(cell) ?? []
  if (hour !== undefined && minute !== undefined && Number(hour) < 24 && Number(minute) < 60)
    return ok(`${pad(hour)}:${minute}`)
  return refuse('bad-input', `'${shortened(cell)}' is not a time of day.`, 'Write it as 08:00 or 16:30.')
}

/** '7.5' or '7,5'; at most two decimals, so that a thousands mark is never taken for a decimal one. */
export function readNumber(cell: string): Result<number> {
  if (/^[+-]?\d{1,7}([.,]\d{1,2})?$/.test(cell)) return ok(Number(cell.replace(',', '.')))
  return refuse(
    'bad-input',
    `'${shortened(cell)}' is not a number that can be read for certain.`,
    'Write it as 7.5 or 7,5, without unit or thousands mark and with at most two decimals.',
  )
}

/** '1/2/4' for shortest, most likely and longest; a single number stands for all three. */
export function readThreePoint(cell: string): Result<ThreePoint> {
  const parts = cell.split('/').map((part) => readNumber(part.trim()))
  const numbers: number[] = []
  for (const part of parts) {
    if (!part.ok) return part
    numbers.push(part.value)
  }
  const [shortest, likely = shortest, longest = likely] = numbers
  if (numbers.length === 1 || numbers.length === 3)
    return readWith(threePointSchema, { shortest, likely, longest })
  return refuse(
    'bad-input',
    `'${shortened(cell)}' is not an estimate.`,
    'Write three numbers as 1/2/4 (shortest, most likely, longest), or one number.',
  )
}

function pad(digits: string | undefined): string {
  return (digits ?? '').padStart(2, '0')
}
