import { useQuery } from '@tanstack/react-query'
import { Link, useParams, useSearch } from '@tanstack/react-router'
import { fixed, hours, plural } from '../../domain/text/words.ts'
import type { CarId } from '../../domain/ids.ts'
import type { CarLine, CarView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { CAR_SHEETS, type CarSheet } from '../parts/sheets/car-sheets.ts'
import { FirstSteps } from '../parts/frame/first-steps.tsx'
import { standingWords } from '../parts/measure/fixtures.ts'
import { Loaded } from '../parts/frame/loaded.tsx'
import { PromisedDate } from '../parts/car/promised-date.tsx'
import { type Figure, ScreenHead } from '../parts/frame/screen-head.tsx'
import { TabWords } from '../parts/frame/tab-words.tsx'
import { Tabs } from '../parts/frame/tabs.tsx'
import { useWhen, type When } from '../parts/frame/when.tsx'
import { CarMenu } from './car-menu.tsx'
import styles from './car.module.css'
import { DecisionsSheet } from './decisions-sheet.tsx'
import { DimensionsSheet } from './dimensions-sheet.tsx'
import { EstimateSheet } from './estimate-sheet.tsx'
import { HoursSheet } from './hours-sheet.tsx'
import { MapSheet } from './map-sheet.tsx'
import { MoneySheet } from './money-sheet.tsx'
import { PhotosSheet } from './photos-sheet.tsx'
import { RecordSheet } from './record-sheet.tsx'

export function CarScreen() {
  const carId = useParams({ from: '/cars/$carId' }).carId as CarId
  const query = useQuery(api.car.queryOptions({ carId }))
  return <Loaded query={query}>{(view) => <Car view={view} />}</Loaded>
}

function Car({ view }: { readonly view: CarView }) {
  const when = useWhen()
  const { sheet = 'map' } = useSearch({ from: '/cars/$carId' })
  const { header } = view
  return (
    <div className="stack">
      <ScreenHead title={titleOf(header)} below={belowWords(header, when)} figures={figuresOf(header)} />
      <FirstSteps />
      <div className={styles.bar}>
        <Tabs label="Sheets of this car" shown={sheet}>
          {CAR_SHEETS.map((each) => (
            <Link
              key={each}
              to="/cars/$carId"
              params={{ carId: header.carId }}
              search={each === 'map' ? {} : { sheet: each }}
              replace
              activeOptions={{ includeSearch: true, exact: true }}
              {...(each === sheet && { 'aria-current': 'page' as const })}
            >
              <TabWords>{tabWords(each, view)}</TabWords>
            </Link>
          ))}
        </Tabs>
        <CarMenu view={view} />
      </div>
      <h2 className="hidden-word">{tabWords(sheet, view)}</h2>
      <Sheet sheet={sheet} view={view} />
    </div>
  )
}

function Sheet({ sheet, view }: { readonly sheet: CarSheet; readonly view: CarView }) {
  switch (sheet) {
    case 'map':
      return <MapSheet view={view} />
    case 'estimate':
      return <EstimateSheet view={view} />
    case 'photos':
      return <PhotosSheet view={view} />
    case 'hours':
      return <HoursSheet view={view} />
    case 'money':
      return <MoneySheet view={view} />
    case 'decisions':
      return <DecisionsSheet view={view} />
    case 'dimensions':
      return <DimensionsSheet view={view} />
    case 'record':
      return <RecordSheet view={view} />
  }
}

function tabWords(sheet: CarSheet, { photos, header }: CarView): string {
  switch (sheet) {
    case 'map':
      return 'Closing map'
    case 'estimate':
      return 'Estimate'
    case 'photos':
      return `Photos ${photos.length}`
    case 'hours':
      return 'Hours'
    case 'money':
      return 'Money'
    case 'decisions':
      return header.decisionsOpen === 0 ? 'Owner decisions' : `Owner decisions ${header.decisionsOpen}`
    case 'dimensions':
      return 'Gaps and dimensions'
    case 'record':
      return 'Record'
  }
}

const titleOf = ({ name, year }: CarLine): string => (year === null ? name : `${name}, ${year}`)

function belowWords(
  { shellNumber, owner, place, since, daysThere, fixture, status, warranty, cameFrom }: CarLine,
  when: When,
) {
  const days = daysThere === null ? '' : ` (${plural('day', daysThere)})`
  const there = since === null ? place : `${place} since ${when.day(since)}${days}`
  const statusWords = status === 'in work' || status === place ? null : status
  return [
    `shell ${shellNumber}`,
    owner,
    fixture === null ? there : `${there}, ${standingWords[fixture]}`,
    warranty ? 'warranty' : null,
    cameFrom === null ? statusWords : 'no visit here yet',
  ]
    .filter(Boolean)
    .join('; ')
}

function figuresOf({
  promised,
  latePromise,
  hours: pair,
  finishedRepairs,
  repairs,
}: CarLine): readonly Figure[] {
  return [
    { label: 'promised', value: <PromisedDate date={promised} isLate={latePromise} /> },
    { label: 'repairs finished', value: `${finishedRepairs} of ${repairs}` },
    {
      label: 'hours spent of authorised',
      value: `${fixed(pair.spent, 1)} of ${hours(pair.authorised)}`,
      ...(pair.spent > pair.authorised && { tone: 'accent' }),
    },
  ]
}
