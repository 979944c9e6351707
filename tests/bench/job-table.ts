import { parseCsv } from '../../domain/import/parse-csv.ts'

/** Named columns and the cells below them, as they stand in the file; an unknown value is ''. */
export interface JobTable {
  readonly columns: readonly string[]
  readonly rows: readonly TableRow[]
}

export interface TableRow {
  /** Counted from 1, as editors do. */
  readonly line: number
  readonly cells: readonly string[]
}

/** Reads a CSV file with a line of column names, or an ARFF file (the one with an @relation or @data line). Throws with what to do. */
export function readJobTable(text: string, file: string): JobTable {
  const plain = text.replace(/^\uFEFF/, '')
  const table = /^\s*@(relation|data)\b/im.test(plain) ? readArff(plain, file) : readCsv(plain, file)
  if (table.rows.length === 0)
    throw new Error(`${file} has no rows. Give a file with a row for each finished job.`)
  const wrong = table.rows.find(({ cells }) => cells.length !== table.columns.length)
  if (wrong !== undefined)
    throw new Error(
      `${file}, line ${wrong.line}: there are ${wrong.cells.length} cells for ${table.columns.length} columns. Put cells with commas in quotation marks.`,
    )
  return {
    columns: table.columns,
    rows: table.rows.map(({ line, cells }) => ({ line, cells: cells.map(known) })),
  }
}

const known = (cell: string): string => (/^(\?|NA|null)?$/i.test(cell.trim()) ? '' : cell.trim())

function readCsv(text: string, file: string): JobTable {
  const parsed = parseCsv(text)
  if (!parsed.ok) throw new Error(`${file}: ${parsed.refusal.message} ${parsed.refusal.next}`)
  const [heading, ...rows] = parsed.value
  return { columns: heading?.cells.map((cell) => cell.trim()) ?? [], rows }
}

/** Attribute-relation file format; sparse rows ({1 value, …}) and relations within cells are not read. */
function readArff(text: string, file: string): JobTable {
  const columns: string[] = []
  const rows: TableRow[] = []
  let isData = false
  for (const [index, raw] of text.split(/\r\n|\r|\n/).entries()) {
    const line = index + 1
    const content = raw.trim()
    if (content === '' || content.startsWith('%')) continue
    if (isData) rows.push({ line, cells: arffCells(content, `${file}, line ${line}`) })
    else if (/^@data\b/i.test(content)) isData = true
    else if (/^@attribute\b/i.test(content)) columns.push(attributeName(content, `${file}, line ${line}`))
    else if (!/^@relation\b/i.test(content))
      throw new Error(`${file}, line ${line}: only @relation, @attribute and @data come before the rows.`)
  }
  if (columns.length === 0)
    throw new Error(`${file} has no @attribute lines, which name an ARFF file's columns.`)
  return { columns, rows }
}

function attributeName(content: string, place: string): string {
  const found = /^@attribute\s+(?:'([^']+)'|"([^"]+)"|([^\s'"{]+))\s*\S/i.exec(content)
  const name = found?.[1] ?? found?.[2] ?? found?.[3]
  if (name === undefined) throw new Error(`${place}: write @attribute, a name and a type.`)
  return name
}

function arffCells(content: string, place: string): readonly string[] {
  if (content.startsWith('{'))
    throw new Error(`${place}: sparse rows are not read. Save the file with all values.`)
  const cells: string[] = []
  const cell = /\s*(?:'((?:\\.|[^'\\])*)'|"((?:\\.|[^"\\])*)"|([^,'"]*))\s*(,|$)/y
  for (;;) {
    const found = cell.exec(content)
    if (found === null)
      throw new Error(`${place}: a cell in quotation marks must end with one, before the comma.`)
    cells.push((found[1] ?? found[2])?.replace(/\\(.)/g, '$1') ?? found[3] ?? '')
    if (found[4] === '') return cells
  }
}
