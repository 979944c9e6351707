import { ReasonDialog } from '../parts/form/reason-dialog.tsx'
import { Notice } from '../parts/form/notice.tsx'
import type { SafetyItem } from '../../domain/car.ts'
import { useRepair } from './repair-context.ts'

/** A safety fact of the car: it stands until somebody withdraws it. */
export function SafetyDialog({ item, onClose }: { readonly item: SafetyItem; readonly onClose: () => void }) {
  const { view } = useRepair()
  const stands = view.next?.asks.some((ask) => ask.subject === item && ask.met) === true
  const { title, caution, withdraw } = WORDS[item]
  return (
    <ReasonDialog
      title={stands ? withdraw : title}
      label={stands ? 'Why (may stay empty)' : 'How, where (may stay empty)'}
      submit={stands ? 'It does not stand any more' : 'It stands'}
      isOptional
      onClose={onClose}
      act={(note) => ({ kind: 'setSafety', carId: view.car.carId, payload: { item, stands: !stands, note } })}
    >
      <Notice kind="caution">
        <p>{caution}</p>
      </Notice>
    </ReasonDialog>
  )
}

const WORDS: Readonly<Record<SafetyItem, { title: string; caution: string; withdraw: string }>> = {
  bracing: {
    title: 'The shell is braced',
    caution:
      'Brace the openings before load-bearing metal is cut: a shell that moves is hard to bring back. A stripped shell balances differently.',
    withdraw: 'The bracing is taken out',
  },
  battery: {
    title: 'The battery is disconnected',
    caution: 'Take the battery off before cutting, grinding and welding, and keep it away from sparks.',
    withdraw: 'The battery is connected again',
  },
  fuel: {
    title: 'Fuel tank and lines are removed or purged',
    caution:
      'A drained tank is not safe: its vapour burns. Remove or purge tank and lines; follow local rules.',
    withdraw: 'Fuel is back in the car',
  },
}
