import canonicalize from 'canonicalize'

/**
 * JSON in the canonical form of RFC 8785: the same value always gives the same text, so that a digest of it means
 * the value.
 *
 * @throws for what JSON cannot say: undefined, functions, NaN, infinities, circles
 */
export function canonicalJson(value: unknown): string {
  const text = canonicalize(value)
  if (text === undefined) throw new TypeError('This value has no JSON form.')
  return text
}
