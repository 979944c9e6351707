import { Link } from '@tanstack/react-router'
import { TabWords } from '../parts/frame/tab-words.tsx'
import { Tabs } from '../parts/frame/tabs.tsx'
import { VARIANCE_SHEETS, type VarianceSheet } from '../parts/sheets/variance-sheets.ts'

const TABS: Readonly<Record<VarianceSheet, string>> = {
  gate: 'Gates',
  type: 'Repair types',
  car: 'Cars',
  zone: 'Zones',
  month: 'Months',
  person: 'People',
}

/** What hours are compared by, and beside it how right they were said beforehand. */
export function VarianceTabs({
  current,
  showsPeople,
  as,
}: {
  readonly current: VarianceSheet | 'were we right'
  readonly showsPeople: boolean
  readonly as?: 'table' | undefined
}) {
  const marked = (isCurrent: boolean) => (isCurrent ? { 'aria-current': 'page' as const } : {})
  return (
    <Tabs label="What hours are compared by" shown={current}>
      {VARIANCE_SHEETS.filter((each) => each !== 'person' || showsPeople).map((each) => (
        <Link
          key={each}
          to="/variance"
          search={{ ...(each !== 'gate' && { by: each }), ...(as !== undefined && { as }) }}
          replace
          activeOptions={{ includeSearch: true, exact: true }}
          {...marked(each === current)}
        >
          <TabWords>{TABS[each]}</TabWords>
        </Link>
      ))}
      <Link
        to="/variance/were-we-right"
        replace
        activeOptions={{ exact: true }}
        {...marked(current === 'were we right')}
      >
        <TabWords>Were we right</TabWords>
      </Link>
    </Tabs>
  )
}
