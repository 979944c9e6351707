import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import type { MoneyView } from '../../domain/views/money-view.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Loaded } from '../parts/frame/loaded.tsx'
import { MoneyForManagers } from '../parts/frame/money-for-managers.tsx'
import { EmptyState, Notice } from '../parts/form/notice.tsx'
import { MoneyCosts } from './money-costs.tsx'
import { MoneyPayers } from './money-payers.tsx'
import { MoneySpendings } from './money-spendings.tsx'
import { MoneyTable } from './money-table.tsx'

/** What this visit comes to: by payer against what is authorised, what is estimated beside hours, and every bill. */
export function MoneySheet({ view }: { readonly view: CarView }) {
  return (
    <MoneyForManagers>
      <ReadMoney view={view} />
    </MoneyForManagers>
  )
}

function ReadMoney({ view }: { readonly view: CarView }) {
  const query = useQuery(api.carMoney.queryOptions({ carId: view.header.carId }))
  return <Loaded query={query}>{(money) => <Money view={view} money={money} />}</Loaded>
}

function Money({ view, money }: { readonly view: CarView; readonly money: MoneyView }) {
  const { visitId, whole } = money
  if (visitId === null || whole === null) {
    return (
      <EmptyState title="No visit goes on">Open a visit: its estimate and its bills stand here.</EmptyState>
    )
  }
  return (
    <div className="stack">
      {money.withoutRate !== null && (
        <Notice kind="held">
          <p>
            {money.withoutRate}{' '}
            <Link to="/workshop" search={{ sheet: 'rates' }} className="reaching">
              Go to the rates
            </Link>
          </p>
          <p className="small">The rest is reckoned; hours without a rate stand beside it as hours.</p>
        </Notice>
      )}
      {money.payers.length === 0 ? (
        <EmptyState title="Nothing is agreed or spent yet">
          Repairs and tasks bring their hours; add below what parts, materials and outside work are expected
          to cost. Their payer then accepts them together with the hours.
        </EmptyState>
      ) : (
        <>
          <MoneyPayers money={money} />
          <MoneyTable money={money} whole={whole} />
        </>
      )}
      <MoneyCosts view={view} money={money} visitId={visitId} />
      <MoneySpendings money={money} visitId={visitId} />
    </div>
  )
}
