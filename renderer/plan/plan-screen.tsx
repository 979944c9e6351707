import { useQuery } from '@tanstack/react-query'
import { getRouteApi, Link } from '@tanstack/react-router'
import { useMemo, useState } from 'react'
import { planNames } from '../../domain/drawing/plan-rows.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import { plural } from '../../domain/text/words.ts'
import type { PlanView } from '../../domain/views/plan-view-shapes.ts'
import { api } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Deferred } from '../parts/frame/deferred.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { PLAN_LISTS, PLAN_SHEETS, type PlanSheetName } from '../parts/sheets/plan-sheets.ts'
import { ScreenHead, type Figure } from '../parts/frame/screen-head.tsx'
import { TabWords } from '../parts/frame/tab-words.tsx'
import { Tabs } from '../parts/frame/tabs.tsx'
import { useWhen, type When } from '../parts/frame/when.tsx'
import { emptyPlan } from './empty-plan.tsx'
import { FaultList } from './fault-list.tsx'
import { HatchPatterns } from './hatch-patterns.tsx'
import { type ShownPlan, ShownPlanProvider } from './plan-context.ts'
import { planHead } from './plan-figures.ts'
import styles from './plan.module.css'
import { PlanList } from './plan-list.tsx'
import { PlanSheet } from './plan-sheet.tsx'
import { ProposalBar, type WhichPlan } from './proposal-bar.tsx'
import { useIsNarrow } from './use-is-narrow.ts'
import { WhatIfSheet } from './what-if-sheet.tsx'

const route = getRouteApi('/plan')

const SHEET_WORDS: Readonly<Record<PlanSheetName, string>> = {
  drawing: 'Drawing',
  list: 'List',
  'what-if': 'What if',
}

export function PlanScreen() {
  const query = useQuery(api.plan.queryOptions())
  return <Loaded query={query}>{(view) => <PlanOf view={view} />}</Loaded>
}

function PlanOf({ view }: { readonly view: PlanView }) {
  const when = useWhen()
  const empty = emptyPlan(view)
  const [which, setWhich] = useState<WhichPlan>('in force')
  const plan = planShown(view, which)
  const shown = useShown(view, plan)
  if (empty !== null || shown === null) {
    return (
      <div className="stack">
        <ScreenHead title="Plan" />
        {plan !== null && shown !== null && (
          <ShownPlanProvider value={shown}>
            <FaultList faults={plan.faults} />
          </ShownPlanProvider>
        )}
        {empty}
      </div>
    )
  }
  return (
    <ShownPlanProvider value={shown}>
      <HatchPatterns />
      <div className="stack">
        <ScreenHead
          title="Plan"
          below={belowTitle(view, shown.plan, when.dayAndTime(shown.plan.madeAt))}
          figures={headFigures(shown, when)}
        />
        <FaultList faults={shown.plan.faults} />
        <Proposal which={which} onWhich={setWhich} />
        <Deferred>
          <Sheets />
        </Deferred>
      </div>
    </ShownPlanProvider>
  )
}

/** A manager's word that a proposal is left is kept on the device until there is another one. */
const LEFT_KEY = 'panelwright.plan.left'

function Proposal({
  which,
  onWhich,
}: {
  readonly which: WhichPlan
  readonly onWhich: (which: WhichPlan) => void
}) {
  const [left, setLeft] = useState(() => localStorage.getItem(LEFT_KEY))
  const leave = (planId: string | null) => {
    if (planId === null) localStorage.removeItem(LEFT_KEY)
    else localStorage.setItem(LEFT_KEY, planId)
    setLeft(planId)
    onWhich('in force')
  }
  return <ProposalBar which={which} left={left} onWhich={onWhich} onLeave={leave} />
}

function Sheets() {
  const search = route.useSearch()
  const isNarrow = useIsNarrow()
  // On a phone the drawing would show nothing; the list says the same.
  const sheets = isNarrow ? PLAN_SHEETS.filter((sheet) => sheet !== 'drawing') : PLAN_SHEETS
  const sheet = sheets.find((each) => each === search.sheet) ?? sheets[0]
  const tabs = (
    <Tabs label="The plan as" shown={sheet ?? 'list'}>
      {sheets.map((each) => (
        <Link
          key={each}
          to="/plan"
          search={{ ...search, sheet: each }}
          aria-current={each === sheet ? 'page' : undefined}
        >
          <TabWords>{SHEET_WORDS[each]}</TabWords>
        </Link>
      ))}
    </Tabs>
  )
  if (sheet === 'drawing') return <PlanSheet tabs={tabs} />
  return (
    <>
      {tabs}
      <Deferred key={sheet}>
        {sheet === 'list' ? <PlanList by={search.by ?? PLAN_LISTS[0]} /> : <WhatIfSheet />}
      </Deferred>
    </>
  )
}

/** The reason is a sentence, so it is set smaller than the figures beside it. */
function headFigures({ plan, names }: ShownPlan, when: When): readonly Figure[] {
  const { figures, reason } = planHead(plan, names, when)
  if (reason === null) return figures
  return [...figures, { label: 'the reason', value: <span className={styles.reason}>{reason}</span> }]
}

/** What is in force is shown until a newer one is asked for; without one, the proposal. */
const planShown = ({ inForce, proposal }: PlanView, which: WhichPlan): Plan | null =>
  (which === 'newer' ? proposal?.plan : inForce?.plan) ?? proposal?.plan ?? inForce?.plan ?? null

function useShown(view: PlanView, plan: Plan | null): ShownPlan | null {
  const { manager } = useActor()
  const names = useMemo(() => planNames(view), [view])
  const canChange = manager !== null
  return useMemo(
    () => (plan === null ? null : { view, plan, names, canChange }),
    [view, plan, names, canChange],
  )
}

function belowTitle({ state, inForce }: PlanView, plan: Plan, madeAt: string): string {
  const { length } = plan.moves
  const moves = length === 0 ? 'no shell is moved' : plural('move of a shell', length, 'moves of shells')
  const making = state === 'planning' ? '; a newer one is being made' : ''
  const taken = inForce === null ? '; not taken yet' : ''
  return `made ${madeAt}; ${moves}${taken}${making}`
}
