import type { ToPicture } from './canvas.ts'
import { textPath } from './chalk-letters.ts'
import { PHOTO_HEIGHT, PHOTO_WIDTH, type Layer } from './develop.ts'
import type { Random } from './random.ts'
import type { Prop } from './structures.ts'

/**
 * The tools and marks on the metal, and the lamp's glare at a border now and then; null when there is neither. Each is
 * drawn at its own place with x along its angle; lengths are in units of about 10 cm and scaled by the view.
 */
export function propsLayer(props: readonly Prop[], toPicture: ToPicture, random: Random): Layer | null {
  const drawn = drawProps(props, toPicture, random) + (random.chance(0.2) ? glare(random) : '')
  if (drawn === '') return null
  const size = `width="${PHOTO_WIDTH}" height="${PHOTO_HEIGHT}"`
  return {
    left: 0,
    top: 0,
    width: PHOTO_WIDTH,
    height: PHOTO_HEIGHT,
    svg: `<svg xmlns="http://www.w3.org/2000/svg" ${size}>${COLOUR_RUNS}${drawn}</svg>`,
  }
}

function drawProps(props: readonly Prop[], toPicture: ToPicture, random: Random): string {
  const lean = [random.between(-0.05, 0.05), random.between(-0.07, -0.02)] as const
  return props
    .map((prop) => {
      const [x, y] = pixelOf(toPicture, prop.u, prop.v)
      const [aheadX, aheadY] = pixelOf(
        toPicture,
        prop.u + Math.cos(prop.angle) * 0.2,
        prop.v + Math.sin(prop.angle) * 0.2,
      )
      const scale = Math.sqrt((aheadX - x) ** 2 + (aheadY - y) ** 2) / 0.2
      const turn = (Math.atan2(aheadY - y, aheadX - x) * 180) / Math.PI
      const place = `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${turn.toFixed(1)}) scale(${scale.toFixed(2)})`
      if (prop.thing === 'pin')
        return `<g transform="${place.replace(/rotate\([^)]*\) /, '')}">${pin(lean, random)}</g>`
      return `<g transform="${place}">${DRAWN[prop.thing](random)}</g>`
    })
    .join('')
}

/** Colour runs that the drawings refer to. */
const COLOUR_RUNS = `<defs>
<linearGradient id="steel" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#e3e6e8"/><stop offset=".3" stop-color="#a7abae"/><stop offset=".75" stop-color="#6c7073"/><stop offset="1" stop-color="#45484a"/></linearGradient>
<linearGradient id="dark" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#70757a"/><stop offset=".4" stop-color="#3c4043"/><stop offset="1" stop-color="#1c1e1f"/></linearGradient>
<linearGradient id="rule" x1="0" y1="0" x2="1" y2="0"><stop offset="0" stop-color="#b8bcbe"/><stop offset=".35" stop-color="#dfe2e3"/><stop offset=".6" stop-color="#aeb2b5"/><stop offset="1" stop-color="#c9cdcf"/></linearGradient>
<linearGradient id="leaf" x1="0" y1="0" x2="1" y2="0"><stop offset="0" stop-color="#f0f2f2"/><stop offset=".5" stop-color="#9da3a6"/><stop offset="1" stop-color="#c6cbcd"/></linearGradient>
<radialGradient id="lamp" cx=".5" cy=".5" r=".5"><stop offset="0" stop-color="#fff" stop-opacity=".5"/><stop offset=".35" stop-color="#fff6e2" stop-opacity=".2"/><stop offset="1" stop-color="#fff" stop-opacity="0"/></radialGradient>
</defs>`

function glare(random: Random): string {
  const x = random.pick([0, PHOTO_WIDTH])
  const y = random.between(-100, PHOTO_HEIGHT * 0.5)
  return `<circle cx="${x}" cy="${y.toFixed(0)}" r="${random.between(420, 760).toFixed(0)}" fill="url(#lamp)"/>`
}

const DRAWN: Readonly<Record<Exclude<Prop['thing'], 'pin'>, (random: Random) => string>> = {
  clamp: () =>
    [
      `<g transform="translate(.03 .06)" opacity=".4" fill="#000"><rect x="-.1" y="-.1" width="1.5" height=".22" rx=".1"/><rect x=".5" y=".04" width="1" height=".16" rx=".07" transform="rotate(7 .5 .1)"/></g>`,
      `<rect x=".5" y=".02" width=".98" height=".12" rx=".055" fill="url(#dark)" transform="rotate(8 .5 .08)"/>`,
      `<path d="M-.04 -.13Q.3 -.22 .62 -.12L1.42 -.09Q1.5 -.03 1.42 .03L.7 .06Q.3 .14 -.04 .1Z" fill="url(#steel)"/>`,
      `<circle cx=".56" cy="-.01" r=".045" fill="#54585b"/><circle cx=".56" cy="-.01" r=".022" fill="#c9cdcf"/>`,
      `<rect x="1.42" y="-.07" width=".16" height=".1" rx=".015" fill="url(#dark)"/>`,
      `<circle r=".1" fill="url(#steel)"/><circle r=".06" fill="#5c6063"/>`,
    ].join(''),
  feelers: (random) =>
    [-1, 1, 0]
      .map((leaf) => {
        const turn = leaf * random.between(7, 13)
        const number =
          leaf === 0
            ? `<path d="${textPath(`${random.pick([3, 4, 5])}.${random.pick([0, 5])}`, 62, -5, 9, random)}" transform="scale(.01)" fill="none" stroke="#3a3f42" stroke-width="1.4"/>`
            : ''
        return `<g transform="rotate(${turn.toFixed(1)} 1.25 0)"><rect x="${leaf === 0 ? -0.05 : 0.12}" y="-.04" width="1.3" height=".13" rx=".06" fill="#000" opacity=".35"/><rect x="${leaf === 0 ? -0.05 : 0.12}" y="-.065" width="1.3" height=".13" rx=".06" fill="url(#leaf)"/>${number}</g>`
      })
      .join('') +
    `<rect x=".98" y="-.09" width=".95" height=".2" rx=".09" fill="url(#dark)"/><circle cx="1.12" cy=".01" r=".05" fill="#b8bcbe"/><circle cx="1.12" cy=".01" r=".02" fill="#55595c"/>`,
  rule: (random) => {
    const ticks = Array.from(
      { length: 201 },
      (_value, mm) =>
        `M${(0.08 + mm * 0.01).toFixed(3)} 0v${mm % 10 === 0 ? 0.09 : mm % 5 === 0 ? 0.065 : 0.04}`,
    ).join('')
    const numbers = Array.from({ length: 20 }, (_value, cm) =>
      textPath(String(cm + 1), 14.5 + cm * 10 - (cm > 8 ? 3 : 0), 11, 5, random),
    ).join('')
    return `<rect x=".02" y=".03" width="2.2" height=".24" fill="#000" opacity=".4"/><rect width="2.2" height=".24" rx=".01" fill="url(#rule)"/><path d="${ticks}" stroke="#2a2d2f" stroke-width=".0035" fill="none"/><path d="${numbers}" transform="scale(.01)" fill="none" stroke="#2a2d2f" stroke-width=".8"/>`
  },
  'pen circle': (random) => `<path d="${ring(random)}${ring(random)}" ${penStyle(random)}/>`,
  'pen arrow': (random) =>
    `<path d="M0 0Q.3 ${random.between(-0.08, 0.08).toFixed(2)} .7 0M.02 .01L.16 -.1M.02 0L.17 .1" ${penStyle(random)}/>`,
  tape: (random) =>
    `<rect x="-4" y="0" width="9" height="${random.between(0.22, 0.3).toFixed(2)}" fill="#000" opacity=".25" transform="translate(.01 .015)"/><rect x="-4" y="0" width="9" height=".24" fill="${random.pick(['#cdb87c', '#d8c68f', '#5f86b0'])}"/><path d="M-4 .2L5 .17M-4 .05L5 .08" stroke="#000" stroke-width=".006" opacity=".1"/>`,
}

/** A spring pin seen from above: all of one photo lean the same way. */
function pin([leanX, leanY]: readonly [number, number], random: Random): string {
  const metal = random.pick(['#a8663a', '#b98345', '#8f9497'])
  return `<path d="M.02 .03l.11 .09" stroke="#000" stroke-width=".12" stroke-linecap="round" opacity=".3"/><path d="M0 0L${leanX.toFixed(3)} ${leanY.toFixed(3)}" stroke="${metal}" stroke-width=".115" stroke-linecap="round"/><path d="M-.02 0L${(leanX - 0.02).toFixed(3)} ${leanY.toFixed(3)}" stroke="#fff" stroke-width=".02" stroke-linecap="round" opacity=".4"/><circle cx="${leanX.toFixed(3)}" cy="${leanY.toFixed(3)}" r=".055" fill="#d7c3a8" opacity=".7"/><circle cx="${leanX.toFixed(3)}" cy="${leanY.toFixed(3)}" r=".025" fill="#2c2a28"/>`
}

/** A ring drawn by hand that does not quite meet itself. */
function ring(random: Random): string {
  const [across, down] = [random.between(0.5, 0.75), random.between(0.36, 0.55)]
  const start = random.between(0, 6)
  const points = Array.from({ length: 26 }, (_value, index) => {
    const angle = start + (index / 24.5) * 2 * Math.PI
    const grow = 1 + random.between(-0.03, 0.03)
    return `${(Math.cos(angle) * across * grow).toFixed(3)} ${(Math.sin(angle) * down * grow).toFixed(3)}`
  })
  return `M${points.join('L')}`
}

function penStyle(random: Random): string {
  const colour = random.pick(['#f0d53a', '#f4f2ea', '#f4f2ea', '#1f3f9a', '#d84a2a'])
  return `fill="none" stroke="${colour}" stroke-width=".028" stroke-linecap="round" stroke-linejoin="round" opacity=".86"`
}

function pixelOf(toPicture: ToPicture, u: number, v: number): readonly [number, number] {
  const [x, y] = toPicture(u, v)
  return [x * PHOTO_WIDTH, y * PHOTO_HEIGHT]
}
