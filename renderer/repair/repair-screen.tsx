import { ScreenHead } from '../parts/screen-head.tsx'

export function RepairScreen() {
  return <ScreenHead title="Repair" />
}
