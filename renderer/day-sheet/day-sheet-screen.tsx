import { ScreenHead } from '../parts/screen-head.tsx'

export function DaySheetScreen() {
  return <ScreenHead title="Day sheet" />
}
