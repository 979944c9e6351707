import { ScreenHead } from '../parts/screen-head.tsx'

export function OwnerDecisionsScreen() {
  return <ScreenHead title="Owner decisions" />
}
