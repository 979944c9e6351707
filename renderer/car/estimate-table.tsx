import { useState } from 'react'
import { PAYERS, type Payer } from '../../domain/facts/shapes.ts'
import { fixed, hours } from '../../domain/text/words.ts'
import type { CarView, EstimateLineView } from '../../domain/views/view-shapes.ts'
import { Button, WordButton } from '../parts/button.tsx'
import { TableFrame } from '../parts/table-frame.tsx'
import { AcceptEstimateDialog } from '../parts/accept-estimate-dialog.tsx'
import { EstimateLineDialog } from './estimate-line-dialog.tsx'

/** The estimate line by line: three points, what is agreed, who pays, and whether they have accepted it. */
export function EstimateTable({ view }: { readonly view: CarView }) {
  const [line, setLine] = useState<EstimateLineView | null>(null)
  const [payer, setPayer] = useState<Payer | null>(null)
  const [isOpen, setIsOpen] = useState(false)
  const waiting = PAYERS.filter((each) => view.estimate.some((one) => one.payer === each && !one.accepted))
  if (view.estimate.length === 0) return null
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>Estimate</h3>
        <span className="row">
          {waiting.map((each) => (
            <Button key={each} onClick={() => setPayer(each)}>
              The {each} accepts{' '}
              {hours(sumOf(view.estimate.filter((one) => one.payer === each && !one.accepted)))}
            </Button>
          ))}
          <WordButton aria-expanded={isOpen} onClick={() => setIsOpen(!isOpen)}>
            {isOpen ? 'fold the lines' : `show all ${view.estimate.length} lines`}
          </WordButton>
        </span>
      </div>
      {isOpen && (
        <TableFrame label="Lines of the estimate">
          <table className="table">
            <thead>
              <tr>
                <th scope="col">what</th>
                <th scope="col" className="number">
                  three points
                </th>
                <th scope="col" className="number">
                  agreed
                </th>
                <th scope="col">pays</th>
                <th scope="col">accepted</th>
                <th scope="col">
                  <span className="hidden-word">change</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {view.estimate.map((one) => (
                <tr key={one.lineId}>
                  <th scope="row">{one.what}</th>
                  <td className="number">
                    {[one.hours.shortest, one.hours.likely, one.hours.longest]
                      .map((each) => fixed(each, 1))
                      .join(' – ')}{' '}
                    h
                  </td>
                  <td className="number">
                    {hours(one.agreed)}
                    {one.baseline !== one.agreed && (
                      <span className="quiet small"> first {hours(one.baseline)}</span>
                    )}
                  </td>
                  <td>{one.payer}</td>
                  <td className={one.accepted ? 'is-passed' : 'is-accent'}>
                    {one.accepted ? '✓ accepted' : 'waits'}
                  </td>
                  <td>
                    <WordButton onClick={() => setLine(one)}>
                      change<span className="hidden-word"> {one.what}</span>
                    </WordButton>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </TableFrame>
      )}
      {line !== null && <EstimateLineDialog view={view} line={line} onClose={() => setLine(null)} />}
      {payer !== null && <AcceptEstimateDialog view={view} payer={payer} onClose={() => setPayer(null)} />}
    </section>
  )
}

const sumOf = (lines: readonly EstimateLineView[]): number =>
  lines.reduce((total, line) => total + line.agreed, 0)
