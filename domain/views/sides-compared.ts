import { capital } from '../text/words.ts'
import { compareSides, sidesWords } from '../measure/gaps.ts'
import type { EdgeView, FitGroupView } from './shared-views.ts'

/** An edge that both sides have, as it was last read on each. */
export interface SidesView {
  /** 'Door aperture: rear edge' */
  readonly name: string
  readonly words: string
}

/** Edges whose names differ in nothing but the side, as nothing else says which two are a pair; read on both sides. */
export function sidesCompared(groups: readonly FitGroupView[]): readonly SidesView[] {
  const read = groups.flatMap(({ name, edges }) =>
    edges.flatMap((edge) => (edge.last === null ? [] : [[`${name}: ${edge.name}`, edge.last] as const])),
  )
  const known = new Map<string, LastReading>(read)
  return read.flatMap(([name, left]) => {
    const other = name.replaceAll(LEFT, otherSide)
    const right = other === name ? undefined : known.get(other)
    return right === undefined ? [] : sidesView(name, left, right)
  })
}

function sidesView(name: string, left: LastReading, right: LastReading): readonly SidesView[] {
  const compared = compareSides(left, right)
  return compared.ok ? [{ name: withoutSide(name), words: sidesWords(compared.value) }] : []
}

type LastReading = NonNullable<EdgeView['last']>

const LEFT = /\bleft\b/gi

const otherSide = (left: string): string => (left.startsWith('L') ? 'Right' : 'right')

/** 'Door aperture: rear edge' of 'door aperture, left: rear edge' and of 'left door aperture: rear edge'. */
const withoutSide = (name: string): string => capital(name.replaceAll(/,? *\bleft\b/gi, '').trim())
