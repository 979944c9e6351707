import type { Drawing, Shape, Tone } from '../../../domain/drawing/shapes.ts'

/** A drawing of domain/drawing on the screen: the same shapes that go onto paper. */
export function DrawingView({
  drawing,
  className = 'drawing',
  isDecoration = false,
}: {
  readonly drawing: Drawing
  readonly className?: string
  /** True where words beside it say the same. */
  readonly isDecoration?: boolean
}) {
  return (
    <svg
      className={className}
      viewBox={`0 0 ${drawing.width} ${drawing.height}`}
      {...(isDecoration ? { 'aria-hidden': true } : { role: 'img', 'aria-label': drawing.words })}
    >
      {drawing.shapes.map((shape, index) => (
        <OneShape key={index} shape={shape} />
      ))}
    </svg>
  )
}

function OneShape({ shape }: { readonly shape: Shape }) {
  switch (shape.kind) {
    case 'path':
      return (
        <path
          d={shape.d}
          fill={shape.fill === null ? 'none' : paint(shape.fill)}
          stroke={shape.stroke === null ? 'none' : paint(shape.stroke)}
          strokeWidth={shape.width}
          {...(shape.dash.length > 0 && { strokeDasharray: shape.dash.join(' ') })}
        />
      )
    case 'text':
      return (
        <text
          x={shape.x}
          y={shape.y}
          fontSize={shape.size}
          fontWeight={shape.bold ? 640 : 400}
          textAnchor={shape.anchor}
          fill={paint(shape.tone)}
        >
          {shape.text}
        </text>
      )
  }
}

const paint = (tone: Tone): string => `var(--${TOKENS[tone]})`

/** The look's colour for each tone: lines of a drawing must stand out more than the rules of a page. */
const TOKENS: Readonly<Record<Tone, string>> = {
  ink: 'ink',
  quiet: 'quiet',
  line: 'edge',
  sheet: 'sheet',
  steel: 'steel',
  primer: 'primer',
  coat: 'coat',
  sealer: 'sealer',
  rust: 'rust',
  accent: 'accent',
  passed: 'passed',
}
