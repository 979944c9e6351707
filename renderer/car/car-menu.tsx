import { useState } from 'react'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/form/button.tsx'
import { Menu } from '../parts/form/menu.tsx'
import { CarFileDialog } from './car-file-dialog.tsx'
import { ChangeCarDialog } from './change-car-dialog.tsx'
import { ChangeVisitDialog } from './change-visit-dialog.tsx'
import { OpenVisitDialog } from './open-visit-dialog.tsx'
import { VisitStatusDialog } from './visit-status-dialog.tsx'

type Doing = 'car' | 'visit' | 'status' | 'open visit' | 'file' | 'file at handover' | null

/** The car's file, and what the manager changes about a car and its visit. */
export function CarMenu({ view }: { readonly view: CarView }) {
  const [doing, setDoing] = useState<Doing>(null)
  const close = () => setDoing(null)
  const isElsewhere = view.header.cameFrom !== null
  const visit = isElsewhere ? undefined : view.visits.find(({ current }) => current)
  return (
    <div className="button-row">
      <Button onClick={() => setDoing('file')}>The car’s file</Button>
      <Menu
        label="Change"
        entries={[
          {
            id: 'status',
            words: 'How far the visit is',
            onChoose: () => setDoing('status'),
            isDisabled: visit === undefined,
          },
          {
            id: 'visit',
            words: 'Promised date, priority, charge, insurer',
            onChoose: () => setDoing('visit'),
            isDisabled: visit === undefined,
          },
          { id: 'car', words: 'Name, shell number, body', onChoose: () => setDoing('car') },
          {
            id: 'open',
            words: isElsewhere ? 'Open a visit' : 'Open another visit',
            onChoose: () => setDoing('open visit'),
          },
        ]}
      />
      {doing === 'car' && <ChangeCarDialog car={view.header} onClose={close} />}
      {doing === 'visit' && visit !== undefined && (
        <ChangeVisitDialog car={view.header} visit={visit} onClose={close} />
      )}
      {doing === 'status' && visit !== undefined && (
        <VisitStatusDialog
          car={view.header}
          visit={visit}
          onClose={close}
          onDelivered={() => setDoing('file at handover')}
        />
      )}
      {doing === 'open visit' && <OpenVisitDialog view={view} onClose={close} />}
      {(doing === 'file' || doing === 'file at handover') && (
        <CarFileDialog view={view} isHandover={doing === 'file at handover'} onClose={close} />
      )}
    </div>
  )
}
