import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { moneyWords } from '../../domain/text/money-words.ts'
import type { RatesView } from '../../domain/views/money-view.ts'
import { api } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { MoneyForManagers } from '../parts/frame/money-for-managers.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { TableFrame } from '../parts/frame/table-frame.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { RatesDialog } from './rates-dialog.tsx'
import sheets from './workshop.module.css'

/** What a person-hour costs, since when, and from when otherwise. */
export function RatesSheet() {
  return (
    <MoneyForManagers>
      <ReadRates />
    </MoneyForManagers>
  )
}

function ReadRates() {
  const query = useQuery(api.rates.queryOptions())
  return <Loaded query={query}>{(view) => <Rates view={view} />}</Loaded>
}

function Rates({ view }: { readonly view: RatesView }) {
  const [isSetting, setIsSetting] = useState(false)
  const setRates = (
    <Button kind="main" onClick={() => setIsSetting(true)}>
      Set rates
    </Button>
  )
  return (
    <div className={`stack ${sheets.sheet}`}>
      {view.tables.length === 0 ? (
        <EmptyState title="No rates are set" action={setRates}>
          Say what a person-hour costs, and from which day on. Hours then have their money on every car: each
          at the rate of the day on which it was worked.
        </EmptyState>
      ) : (
        <>
          <div className="spread">
            <InForce view={view} />
            {setRates}
          </div>
          <RateTables view={view} />
          <p className="small quiet">
            Without tax. New rates change no day before the one from which they hold: what was worked or
            accepted earlier keeps its rate.
          </p>
        </>
      )}
      {isSetting && <RatesDialog view={view} onClose={() => setIsSetting(false)} />}
    </div>
  )
}

function InForce({ view: { tables, currency } }: { readonly view: RatesView }) {
  const when = useWhen()
  const table = tables.find(({ standing }) => standing === 'in force')
  if (table === undefined) return <h2>No rates are in force yet</h2>
  return (
    <h2>
      {moneyWords(table.usual, currency)} an hour since {when.day(table.from)}
    </h2>
  )
}

function RateTables({ view: { tables, currency } }: { readonly view: RatesView }) {
  const when = useWhen()
  const skills = [...new Set(tables.flatMap(({ bySkill }) => bySkill.map(({ skill }) => skill)))].toSorted()
  return (
    <TableFrame label="Rates by the day from which they hold">
      <table className="table">
        <thead>
          <tr>
            <th scope="col">from</th>
            <th scope="col">standing</th>
            <th scope="col" className="number">
              usual, an hour
            </th>
            {skills.map((skill) => (
              <th key={skill} scope="col" className="number">
                {skill}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {tables.map(({ from, standing, usual, bySkill }) => (
            <tr key={from}>
              <th scope="row">{when.day(from)}</th>
              <td className={standing === 'in force' ? 'is-passed' : 'quiet'}>
                {standing === 'in force' && '✓ '}
                {standing}
              </td>
              <td className="number">{moneyWords(usual, currency)}</td>
              {skills.map((skill) => {
                const own = bySkill.find((each) => each.skill === skill)
                return (
                  <td key={skill} className="number">
                    {own === undefined ? (
                      <span className="quiet">usual</span>
                    ) : (
                      moneyWords(own.perHour, currency)
                    )}
                  </td>
                )
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}
