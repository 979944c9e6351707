/** Rows by the portion, the last one shorter; none of no rows. */
export function* portionsOf<Row>(rows: Iterable<Row>, most: number): Generator<readonly Row[]> {
  let portion: Row[] = []
  for (const row of rows) {
    portion.push(row)
    if (portion.length < most) continue
    yield portion
    portion = []
  }
  if (portion.length > 0) yield portion
}
