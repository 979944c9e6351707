import type { Cell, Column, Table } from '../../domain/report/table.ts'
import { fixed } from '../../domain/text/words.ts'
import { TableFrame } from '../parts/frame/table-frame.tsx'
import styles from './variance.module.css'

/** The table that the files hold, on the screen. */
export function TableView({ table }: { readonly table: Table }) {
  return (
    <TableFrame label={`All figures: ${table.name}`}>
      <table className={styles.table}>
        <thead>
          <tr>
            {table.columns.map((column) => (
              <th key={column.head} scope="col" className={isNumber(column) ? 'number' : undefined}>
                {column.head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row, at) => (
            <tr key={at}>
              {row.map((cell, column) => (
                <OneCell key={column} cell={cell} isHead={column === 0} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}

function OneCell({ cell, isHead }: { readonly cell: Cell; readonly isHead: boolean }) {
  const words = cell === null ? '–' : typeof cell === 'number' ? figure(cell) : cell
  if (isHead) return <th scope="row">{words}</th>
  return <td className={typeof cell === 'string' ? undefined : 'number'}>{words}</td>
}

const figure = (value: number): string => `${value < 0 ? '−' : ''}${fixed(Math.abs(value), 2)}`

const isNumber = ({ kind }: Column): boolean => kind === 'hours' || kind === 'ratio'
