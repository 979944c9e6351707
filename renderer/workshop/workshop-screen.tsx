import { ScreenHead } from '../parts/screen-head.tsx'

export function WorkshopScreen() {
  return <ScreenHead title="Workshop" />
}
