import { ScreenHead } from '../parts/screen-head.tsx'

export function FirstRunScreen() {
  return <ScreenHead title="First run" />
}
