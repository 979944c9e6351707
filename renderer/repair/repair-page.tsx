import { useEffect, useState } from 'react'
import type { RepairView } from '../../domain/views/view-shapes.ts'
import { usePhotoInputs } from '../parts/photos/use-photo-inputs.tsx'
import { enterAgain, useEnterAgain } from '../outbox/enter-again.ts'
import { PreparedHere } from '../outbox/prepared-gates.tsx'
import { WatchList } from '../parts/gates/watch-list.tsx'
import { ActionBar } from './action-bar.tsx'
import { BeyondAgreed } from './beyond-agreed.tsx'
import { doingAgain } from './doing-again.ts'
import { EntryList } from './entry-list.tsx'
import { FindingList } from './finding-list.tsx'
import { FitGroupList } from './fit-group-list.tsx'
import { GateList } from './gate-list.tsx'
import { LayerList } from './layer-list.tsx'
import { NextGate } from './next-gate.tsx'
import { PartList } from './part-list.tsx'
import { PhotoSheet } from './photo-sheet.tsx'
import { ReadingList } from './reading-list.tsx'
import { type Doing, RepairContext } from './repair-context.ts'
import { RepairDialogs } from './repair-dialogs.tsx'
import { RepairHead } from './repair-head.tsx'
import { SectionFigure } from './section-figure.tsx'
import styles from './repair.module.css'

/** One repair: its section, the next gate with all it asks for, and everything that was recorded on it. */
export function RepairPage({ view }: { readonly view: RepairView }) {
  const [doing, setDoing] = useState<Doing | null>(null)
  const photos = usePhotoInputs(view.car.carId)
  const again = useEnterAgain()
  const repairId = view.repair.id
  useEffect(() => {
    const asked = again === null ? null : doingAgain(again, repairId)
    if (asked !== null) setDoing(asked)
  }, [again, repairId])
  const close = () => {
    setDoing(null)
    enterAgain.end()
  }
  return (
    <RepairContext value={{ view, open: setDoing, photos }}>
      <div className={styles.page}>
        <RepairHead />
        <BeyondAgreed />
        <div className={styles.work}>
          <SectionFigure />
          <div className={styles.next}>
            <PreparedHere repairId={view.repair.id} />
            <NextGate />
            <WatchList watches={view.watches} />
            <ActionBar />
          </div>
          <LayerList />
          <GateList />
        </div>
        <div className={styles.below}>
          <PhotoSheet />
          <FindingList />
          <PartList />
          <FitGroupList />
          <ReadingList />
          <EntryList />
        </div>
      </div>
      {photos.inputs}
      {doing !== null && <RepairDialogs doing={doing} onClose={close} />}
    </RepairContext>
  )
}
