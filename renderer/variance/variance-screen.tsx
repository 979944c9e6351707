import { ScreenHead } from '../parts/screen-head.tsx'

export function VarianceScreen() {
  return <ScreenHead title="Variance" />
}
