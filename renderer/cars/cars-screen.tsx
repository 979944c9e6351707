import { ScreenHead } from '../parts/screen-head.tsx'

export function CarsScreen() {
  return <ScreenHead title="Cars" />
}
