import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { type ReactNode, useState } from 'react'
import { hours } from '../../domain/text/words.ts'
import type { VarianceDrill, WorkVarianceLine } from '../../domain/views/variance-shapes.ts'
import { api } from '../client.ts'
import { Loaded } from '../parts/frame/loaded.tsx'
import { TableFrame } from '../parts/frame/table-frame.tsx'
import { EntryList } from './entry-list.tsx'
import { signedHours } from '../parts/hours/signed-hours.ts'
import { WordButton } from '../parts/form/button.tsx'
import styles from './variance.module.css'

/** The repairs and gates of one visit that have a part in a figure, and below them its single entries. */
export function VisitWork({
  drill: { grouping, key },
  visit: { carId, visitId, name },
}: {
  readonly drill: VarianceDrill
  readonly visit: VarianceDrill['visits'][number]
}) {
  const query = useQuery(api.varianceWork.queryOptions({ grouping, key, carId, visitId }))
  return (
    <>
      <section className="stack-tight">
        <h3>
          {name}: what it is made of{' '}
          <Link className="small" to="/cars/$carId" params={{ carId }} search={{ sheet: 'hours' }}>
            the car’s hours
          </Link>
        </h3>
        <Loaded query={query}>{(work) => <WorkTable lines={work.repairs} />}</Loaded>
      </section>
      <EntryList grouping={grouping} of={key} carId={carId} />
    </>
  )
}

function WorkTable({ lines }: { readonly lines: readonly WorkVarianceLine[] }) {
  return (
    <TableFrame label="Repairs, gates and tasks">
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">repair, gate or task</th>
            {['authorised', 'earned', 'spent', 'earned less spent', 'expected', 'rework'].map((head) => (
              <th key={head} scope="col" className="number">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <WorkRows key={line.key} line={line} />
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}

/** A repair with its gates below it when they are asked for. */
function WorkRows({ line }: { readonly line: WorkVarianceLine }) {
  const [isOpen, setIsOpen] = useState(false)
  const { name, gates } = line
  const opener =
    gates.length < 2 ? (
      name
    ) : (
      <WordButton className="strong" aria-expanded={isOpen} onClick={() => setIsOpen(!isOpen)}>
        {name}
      </WordButton>
    )
  return (
    <>
      <WorkRow name={opener} line={line} isHead />
      {isOpen && gates.map((gate) => <WorkRow key={gate.gate} name={gate.gate} line={gate} isHead={false} />)}
    </>
  )
}

function WorkRow({
  name,
  line,
  isHead,
}: {
  readonly name: ReactNode
  readonly line: WorkVarianceLine['gates'][number] | WorkVarianceLine
  readonly isHead: boolean
}) {
  const { authorised, earned, spent, rework } = line.hours
  return (
    <tr className={isHead ? undefined : styles.gateRow}>
      <th scope="row">{name}</th>
      <td className="number">{hours(authorised)}</td>
      <td className="number">{hours(earned)}</td>
      <td className="number">{hours(spent)}</td>
      <td className={`number ${line.variance < -0.05 ? 'is-accent' : ''}`}>{signedHours(line.variance)}</td>
      <td className="number">{hours(line.expected)}</td>
      <td className="number">{rework === 0 ? '–' : hours(rework)}</td>
    </tr>
  )
}
