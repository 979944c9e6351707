/** What a person typed as a figure: a decimal comma counts as a point. Null for nothing typed, NaN for no figure. */
export function readNumber(text: string): number | null {
  const trimmed = text.trim().replace(',', '.')
  if (trimmed === '') return null
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(trimmed) ? Number(trimmed) : Number.NaN
}

/**
 * A figure as it stands in a field: '4.5', and nothing for null.
 *
 * @param decimals as many at least: with 2, as for money, '4.50'
 */
export function numberToText(value: number | null | undefined, decimals = 0): string {
  if (value === null || value === undefined || Number.isNaN(value)) return ''
  const plain = String(value)
  const [, fraction = ''] = plain.split('.')
  return fraction.length < decimals ? value.toFixed(decimals) : plain
}
