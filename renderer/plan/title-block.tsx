import type { ReactNode } from 'react'
import type { PlanBlock, PlanRow } from '../../domain/drawing/plan-rows.ts'
import { CarryHint } from './carry-hint.tsx'
import { PutDownNote } from './carry-strip.tsx'
import { FinishCells } from './finish-cells.tsx'
import { useShownPlan } from './plan-context.ts'
import styles from './plan.module.css'
import { PlanFiles } from './plan-files.tsx'
import { Cell } from './title-cell.tsx'
import { ManyCells, MoveCells, StayCells, WorkCells } from './title-cells.tsx'
import type { Carry } from './use-carry.ts'

/** Below the drawing, as on a sheet from a drawing office: what is chosen, who, when, and why then. */
export function TitleBlock({
  block,
  row,
  carry,
  onChoose,
}: {
  readonly block: PlanBlock | null
  readonly row: PlanRow | null
  readonly carry: Carry
  readonly onChoose: (key: string) => void
}) {
  return (
    <section className={styles.titleBlock} aria-label="What is chosen">
      {cellsOf(block, row, carry, onChoose)}
    </section>
  )
}

function cellsOf(
  block: PlanBlock | null,
  row: PlanRow | null,
  carry: Carry,
  onChoose: (key: string) => void,
): ReactNode {
  if (block === null) return row === null ? <NothingChosen carry={carry} /> : <RowCells row={row} />
  switch (block.kind) {
    case 'work':
      return <WorkCells key={block.key} work={block.work} />
    case 'stay':
      return <StayCells key={block.key} block={block} carry={carry} />
    case 'car':
    case 'mixed':
      return <ManyCells key={block.key} works={block.works} onChoose={onChoose} />
    case 'move':
      return <MoveCells key={block.key} move={block.move} />
    case 'finish':
      return <FinishCells key={block.key} car={block.car} />
  }
}

function NothingChosen({ carry }: { readonly carry: Carry }) {
  const { canChange } = useShownPlan()
  return (
    <div className={styles.wideCell}>
      <PutDownNote carry={carry} />
      <CarryHint canChange={canChange} />
    </div>
  )
}

function RowCells({ row }: { readonly row: PlanRow }) {
  switch (row.kind) {
    case 'bay':
      return (
        <>
          <Cell name="bay">
            <div className="strong">{row.bay.name}</div>
            <div className="quiet">{row.bay.kinds.join(', ')}</div>
          </Cell>
          <Cell name="cars on the plan">{row.blocks.length}</Cell>
          <Cell name="to take along">
            <PlanFiles of="bay" id={row.bay.bayId} name={row.bay.name} />
          </Cell>
        </>
      )
    case 'person':
      return (
        <>
          <Cell name="person">
            <div className="strong">{row.person.name}</div>
            <div className="quiet">{row.person.skills.join(', ')}</div>
          </Cell>
          <Cell name="pieces of work">{row.blocks.filter(({ kind }) => kind !== 'move').length}</Cell>
          <Cell name="to take along">
            <PlanFiles of="person" id={row.person.personId} name={row.person.name} />
          </Cell>
        </>
      )
    case 'finish':
      return (
        <Cell name="promised and finished">
          The flag stands at the end of the promised day. The dimension line goes from the finish that is not
          passed with 50 % to that with 80 %.
        </Cell>
      )
  }
}
