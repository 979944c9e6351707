import fc from 'fast-check'
import type { Random } from '../support/random.ts'

/** What JSON can say. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json }

/** Changes values so that they are nearly right, or not at all; the same for the same numbers that look random. */
export interface Mutator {
  /** One to four changes, each somewhere within the value. */
  readonly mutate: (value: Json) => Json
  /** One or two changes to what the same place holds elsewhere, so that the shape mostly stays right. */
  readonly exchange: (value: Json) => Json
  readonly text: (text: string) => string
  /** Anything at all. */
  readonly strange: () => Json
}

/** Stands for a number that JSON can say and JavaScript reads as infinite; see {@link toJsonText}. */
const ENDLESS = '%%1e400%%'

/** @param examples values that are right: what stands in them is put where others belong */
export function createMutator(random: Random, examples: readonly Json[], seed: number): Mutator {
  const seen = valuesByKey(examples)
  const known = [...new Set([...seen.values()].flat())].filter((each) => typeof each === 'string')
  const drawn = fc.sample(fc.oneof(fc.jsonValue(), fc.string({ unit: 'binary', maxLength: 60 })), {
    seed,
    numRuns: 50,
  }) as readonly Json[]
  const strange = (): Json => (random.next() < 0.7 ? random.pick(STRANGE)() : random.pick(drawn))

  const text = (old: string): string => {
    const at = random.between(0, old.length)
    const cut = random.between(at, Math.min(old.length, at + 8))
    return random.pick<() => string>([
      () => random.pick(known),
      () => random.pick(known),
      () => old.slice(0, at) + random.pick(TEXTS) + old.slice(at),
      () => old.slice(0, at) + old.slice(cut),
      () => old + old,
      () => random.pick(TEXTS),
      () => random.pick(TIMES),
      () => old.replace(/\d/, () => String(random.between(0, 9))),
      () => old.toUpperCase(),
    ])()
  }

  const number = (old: number): Json =>
    random.pick<() => Json>([
      () => -old,
      () => old + random.pick([1, -1, 0.1, 1e-9]),
      () => old * random.pick([10, 100, 1e6, 1e300]),
      () => random.pick(NUMBERS),
      () => String(old),
    ])()

  const list = (old: readonly Json[]): Json => {
    const at = random.between(0, Math.max(0, old.length - 1))
    return random.pick<() => Json>([
      () => [],
      () => old.filter((_each, index) => index !== at),
      () => [...old, ...old.slice(at, at + 1)],
      () => old.toReversed(),
      () => Array.from({ length: random.pick([3, 300]) }, () => old[at] ?? null),
      () => old[at] ?? null,
      () => [...old, strange()],
    ])()
  }

  const record = (old: { readonly [key: string]: Json }): Json => {
    const entries = Object.entries(old)
    const at = random.between(0, Math.max(0, entries.length - 1))
    return random.pick<() => Json>([
      () => toRecord(entries.filter((_each, index) => index !== at)),
      () => toRecord([...entries, [random.pick(KEYS), strange()]]),
      () => toRecord(entries.map(([key], index) => [key, entries[(index + 1) % entries.length]![1]])),
      () => [old],
      () => ({}),
    ])()
  }

  const changed = (value: Json): Json => {
    if (random.next() < 0.12) return strange()
    if (typeof value === 'string') return text(value)
    if (typeof value === 'number') return number(value)
    if (typeof value === 'boolean') return random.pick<Json>([!value, null, 'true', 1])
    if (value === null) return random.pick<() => Json>([() => random.pick(known), strange])()
    return isList(value) ? list(value) : record(value)
  }

  const exchanged = (value: Json, key: string): Json => {
    if (typeof value === 'boolean' && random.next() < 0.5) return !value
    if (isList(value) && value.length > 0 && random.next() < 0.5)
      return random.next() < 0.5 ? [...value, value[0] ?? null] : value.slice(1)
    if (typeof value === 'number' && random.next() < 0.3)
      return value + random.pick([1, -1, 0.5, -value, -2 * value])
    const begins = typeof value === 'string' ? /^[a-z]+-/.exec(value)?.[0] : undefined
    const alike = begins === undefined ? [] : known.filter((each) => each.startsWith(begins))
    if (alike.length > 0 && random.next() < 0.6) return random.pick(alike)
    const others = seen.get(key) ?? []
    return others.length > 0 ? others[random.between(0, others.length - 1)]! : value
  }

  const changeAt = (value: Json, [key, ...rest]: readonly string[], change: (at: Json) => Json): Json => {
    if (key === undefined) return change(value)
    if (isList(value))
      return value.map((each, at) => (String(at) === key ? changeAt(each, rest, change) : each))
    return toRecord(
      Object.entries(value as object).map(([name, each]: [string, Json]) => [
        name,
        name === key ? changeAt(each, rest, change) : each,
      ]),
    )
  }

  return {
    strange,
    text,
    mutate: (value) => {
      let next = value
      for (let left = random.pick([1, 1, 1, 2, 4]); left > 0; left--)
        next = changeAt(next, random.pick(pathsOf(next)), changed)
      return next
    },
    exchange: (value) => {
      let next = value
      for (let left = random.pick([1, 1, 2]); left > 0; left--) {
        const path = random.pick(pathsOf(next))
        next = changeAt(next, path, (at) => exchanged(at, keyOf(path)))
      }
      return next
    },
  }
}

/** The name of a place; places in a list have the list's. */
const keyOf = (path: readonly string[]): string => path.findLast((each) => !/^\d+$/.test(each)) ?? ''

function valuesByKey(examples: readonly Json[]): ReadonlyMap<string, readonly Json[]> {
  const values = new Map<string, Json[]>()
  const walk = (value: Json, path: readonly string[]): void => {
    const key = keyOf(path)
    values.set(key, [...(values.get(key) ?? []), value])
    if (value === null || typeof value !== 'object') return
    for (const [name, inner] of Object.entries(value) as [string, Json][]) walk(inner, [...path, name])
  }
  for (const each of examples) walk(each, [])
  return values
}

/** The text of a request's body; numbers without end come from here only, as no value of JavaScript says them. */
export function toJsonText(value: Json): string {
  return JSON.stringify(value).replaceAll(`"${ENDLESS}"`, '1e400')
}

const isList = (value: Json): value is readonly Json[] => Array.isArray(value)

/** With `__proto__` as a key like any other, as JSON brings it. */
function toRecord(entries: readonly (readonly [string, Json])[]): Json {
  const record = {}
  for (const [key, value] of entries)
    Object.defineProperty(record, key, { value, enumerable: true, writable: true, configurable: true })
  return record
}

/** Ways to everything within a value, at most so many that a large one costs no more than a small one. */
function pathsOf(value: Json): readonly (readonly string[])[] {
  const paths: string[][] = [[]]
  const walk = (each: Json, path: readonly string[]): void => {
    if (each === null || typeof each !== 'object' || paths.length > MOST_PATHS || path.length > MOST_DEPTH)
      return
    for (const [key, inner] of Object.entries(each) as [string, Json][]) {
      paths.push([...path, key])
      walk(inner, [...path, key])
    }
  }
  walk(value, [])
  return paths.length === 1 ? paths : paths.slice(1)
}

const MOST_PATHS = 400
const MOST_DEPTH = 12

function nested(depth: number): Json {
  let value: Json = 'deep'
  for (let at = 0; at < depth; at++) value = at % 2 === 0 ? [value] : { inner: value }
  return value
}

const KEYS = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'then',
  'length',
  'id',
  '',
  'kind',
  '\u0000',
]
const NUMBERS: readonly Json[] = [
  0,
  -0,
  -1,
  0.5,
  1e-320,
  1e21,
  1e308,
  -1e308,
  2 ** 31,
  2 ** 53,
  2 ** 63,
  ENDLESS,
  8.64e15,
  8.64e15 + 1,
]
const TEXTS: readonly string[] = [
  '',
  ' ',
  '\u0000',
  '\u202Egnp.exe',
  '\u200B\u200D\uFEFF',
  '\uD800',
  '\uDFFF\uD83D',
  'e' + '\u0301'.repeat(200),
  'Ame\u0301lie',
  '👩‍🏭🏁',
  '<script>alert(1)</script>',
  "'; DROP TABLE journal; --",
  '=HYPERLINK("x")',
  '../../private/code-key',
  '__proto__',
  'constructor',
  '%00%2e%2e%2f',
  'line\r\nSet-Cookie: a=b',
  'NaN',
  'x'.repeat(501),
  'ß'.repeat(5_000),
  'null',
]
const TIMES: readonly string[] = [
  '2026-02-30',
  '2026-11-23',
  '0000-01-01',
  '9999-12-31',
  '+275760-09-13T00:00:00Z',
  '2026-03-29T02:30:00+01:00',
  '2026-10-25T02:30:00+02:00',
  '2026-11-23T09:00:00+23:59',
  '2026-11-23T24:00:00Z',
  '1969-12-31T23:59:59Z',
  '2026-W53',
  '2025-W53',
  '2026-W00',
  '24:00',
  '08:60',
]
const STRANGE: readonly (() => Json)[] = [
  () => null,
  () => true,
  () => [],
  () => ({}),
  () => ENDLESS,
  () => -1,
  () => 2 ** 53,
  () => '',
  () => '\uD800',
  () => 'x'.repeat(20_000),
  () => ['a', ['b', {}]],
  () => toRecord([['__proto__', { isAdmin: true }]]),
  () => toRecord([['constructor', { prototype: {} }]]),
  () => nested(50),
  () => nested(3_000),
  () => Array.from({ length: 2_000 }, (_each, at) => at),
]
