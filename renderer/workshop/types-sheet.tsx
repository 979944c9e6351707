import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { useState } from 'react'
import { PLACES } from '../../domain/facts/shapes.ts'
import { drawSection } from '../../domain/drawing/section-drawing.ts'
import { api } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { DrawingView } from '../parts/drawing/drawing.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { planSection, planWords } from './plan-words.ts'
import { blankType } from './new-type.ts'
import { TypeDetail } from './type-detail.tsx'
import { TypeDialog } from './type-dialog.tsx'
import styles from './types.module.css'
import type { RepairTypeView, Workshop } from './workshop-shapes.ts'

/** The workshop's repair types: each a section, its gates with their hours, and what they ask for. */
export function TypesSheet({ view }: { readonly view: Workshop }) {
  const catalogue = useQuery(api.catalogue.queryOptions())
  return <Loaded query={catalogue}>{({ types }) => <Types view={view} types={types} />}</Loaded>
}

function Types({ view, types }: { readonly view: Workshop; readonly types: readonly RepairTypeView[] }) {
  const { type: chosenId } = useSearch({ from: '/workshop' })
  const [isAdding, setIsAdding] = useState(false)
  const inUse = types.filter((type) => !type.retired)
  const retired = types.filter((type) => type.retired)
  const groups = PLACES.map((place) => ({
    place,
    types: byName(inUse.filter(({ plan }) => plan.zone.place === place)),
  }))
  const chosen = types.find(({ id }) => id === chosenId) ?? groups.flatMap((group) => group.types)[0]
  return (
    <div className="stack">
      <div>
        <Button kind="main" onClick={() => setIsAdding(true)}>
          New repair type
        </Button>
      </div>
      {chosen === undefined ? (
        <EmptyState title="No repair types yet">
          A repair type says which layers a repair goes through, how long each gate takes at three points, and
          what it asks for. Repairs on cars start as a copy of one.
        </EmptyState>
      ) : (
        <div className={styles.page} data-chosen={chosenId !== undefined}>
          <nav className={styles.list} aria-label="Repair types">
            {groups.map((group) => (
              <TypeGroup key={group.place} title={group.place} types={group.types} chosen={chosen} />
            ))}
            <TypeGroup title="retired" types={byName(retired)} chosen={chosen} />
          </nav>
          <TypeDetail key={`${chosen.id}${chosen.version}`} view={view} type={chosen} types={types} />
        </div>
      )}
      {isAdding && (
        <TypeDialog view={view} types={types} start={blankType()} onClose={() => setIsAdding(false)} />
      )}
    </div>
  )
}

function TypeGroup({
  title,
  types,
  chosen,
}: {
  readonly title: string
  readonly types: readonly RepairTypeView[]
  readonly chosen: RepairTypeView
}) {
  if (types.length === 0) return null
  return (
    <section>
      <h2 className={`${styles.place} small quiet`}>{title}</h2>
      <ul className="lines">
        {types.map((type) => (
          <li key={type.id}>
            <Link
              to="/workshop"
              search={{ sheet: 'types', type: type.id }}
              className={styles.type}
              {...(type.id === chosen.id && { 'aria-current': 'true' as const })}
            >
              <DrawingView
                drawing={drawSection(planSection(type.plan), { width: 76, labels: false })}
                isDecoration
                className={styles.small ?? ''}
              />
              <span>
                <span className="strong">{type.plan.name}</span>
                <br />
                <span className="small quiet">{planWords(type.plan)}</span>
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  )
}

const byName = (types: readonly RepairTypeView[]): readonly RepairTypeView[] =>
  types.toSorted((a, b) => a.plan.name.localeCompare(b.plan.name))
