import { ScreenHead } from '../parts/screen-head.tsx'

export function CarScreen() {
  return <ScreenHead title="Car" />
}
