import type { Drawing, Shape } from '../../domain/drawing/shapes.ts'
import { escapeHtml } from './escape-html.ts'

/** A drawing as an SVG element within HTML; the page's style gives each tone its colour as a property of its name. */
export function drawingToSvg({ width, height, shapes, words }: Drawing): string {
  return `<svg viewBox="0 0 ${width} ${height}" role="img" aria-label="${escapeHtml(words)}">${shapes.map(shapeOf).join('')}</svg>`
}

function shapeOf(shape: Shape): string {
  if (shape.kind === 'path') {
    const { d, fill, stroke, width, dash } = shape
    const dashes = dash.length === 0 ? '' : ` stroke-dasharray="${dash.join(' ')}"`
    return `<path d="${escapeHtml(d)}" fill="${paint(fill)}" stroke="${paint(stroke)}" stroke-width="${width}"${dashes}/>`
  }
  const { x, y, text, size, bold, anchor, tone } = shape
  const weight = bold ? 700 : 400
  return `<text x="${x}" y="${y}" font-size="${size}" font-weight="${weight}" text-anchor="${anchor}" fill="${paint(tone)}">${escapeHtml(text)}</text>`
}

const paint = (tone: string | null): string => (tone === null ? 'none' : `var(--${tone})`)
