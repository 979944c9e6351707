import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { api } from '../client.ts'
import { FirstSteps } from '../parts/frame/first-steps.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { type Figure, ScreenHead } from '../parts/frame/screen-head.tsx'
import { TabWords } from '../parts/frame/tab-words.tsx'
import { Tabs } from '../parts/frame/tabs.tsx'
import { SHEET_WORDS, WORKSHOP_SHEETS, type WorkshopSheet } from '../parts/sheets/workshop-sheets.ts'
import { BaysSheet } from './bays-sheet.tsx'
import { CheckSheet } from './check-sheet.tsx'
import { CopiesSheet } from './copies-sheet.tsx'
import { ContactsSheet } from './contacts-sheet.tsx'
import { DevicesSheet } from './devices-sheet.tsx'
import { LimitsSheet } from './limits-sheet.tsx'
import { NewerVersion } from './newer-version.tsx'
import { NetworkSheet } from './network-sheet.tsx'
import { PeopleSheet } from './people-sheet.tsx'
import { PlanningSheet } from './planning-sheet.tsx'
import { RatesSheet } from './rates-sheet.tsx'
import { TakeOutSheet } from './take-out-sheet.tsx'
import { TypesSheet } from './types-sheet.tsx'
import { UpdatesSheet } from './updates-sheet.tsx'
import { weekHoursOf } from './week-drawing.ts'
import { WeekSheet } from './week-sheet.tsx'
import type { Workshop } from './workshop-shapes.ts'

/** What the workshop is made of and goes by: its people, floor, week, repair types and limits. */
export function WorkshopScreen() {
  const query = useQuery(api.workshop.queryOptions())
  return <Loaded query={query}>{(view) => <Sheets view={view} />}</Loaded>
}

function Sheets({ view }: { readonly view: Workshop }) {
  const { sheet = 'people' } = useSearch({ from: '/workshop' })
  return (
    <div className="stack">
      <ScreenHead
        title={view.name}
        below={`times of ${view.zone.replaceAll('_', ' ')}, money in ${view.currency}`}
        figures={figuresOf(view)}
      />
      <FirstSteps />
      {view.clock !== null && <Notice kind="held">{view.clock}</Notice>}
      {sheet !== 'updates' && <NewerVersion />}
      <Tabs label="Sheets of the workshop" shown={sheet}>
        {WORKSHOP_SHEETS.map((each) => (
          <Link
            key={each}
            to="/workshop"
            search={each === 'people' ? {} : { sheet: each }}
            replace
            activeOptions={{ includeSearch: true, exact: true }}
            {...(each === sheet && { 'aria-current': 'page' as const })}
          >
            <TabWords>{SHEET_WORDS[each]}</TabWords>
          </Link>
        ))}
      </Tabs>
      <Sheet sheet={sheet} view={view} />
    </div>
  )
}

function Sheet({ sheet, view }: { readonly sheet: WorkshopSheet; readonly view: Workshop }) {
  switch (sheet) {
    case 'people':
      return <PeopleSheet view={view} />
    case 'bays':
      return <BaysSheet view={view} />
    case 'week':
      return <WeekSheet view={view} />
    case 'planning':
      return <PlanningSheet view={view} />
    case 'types':
      return <TypesSheet view={view} />
    case 'limits':
      return <LimitsSheet view={view} />
    case 'rates':
      return <RatesSheet />
    case 'contacts':
      return <ContactsSheet view={view} />
    case 'network':
      return <NetworkSheet />
    case 'devices':
      return <DevicesSheet />
    case 'check':
      return <CheckSheet />
    case 'copies':
      return <CopiesSheet />
    case 'take-out':
      return <TakeOutSheet view={view} />
    case 'updates':
      return <UpdatesSheet />
  }
}

function figuresOf({ people, bays, week }: Workshop): readonly Figure[] {
  const active = people.filter((person) => person.active)
  return [
    { label: 'people', value: active.length },
    { label: 'bays', value: bays.filter((bay) => bay.active).length },
    { label: 'working week', value: `${weekHoursOf(week)} h` },
  ]
}
