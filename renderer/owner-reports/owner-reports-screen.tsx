import { ScreenHead } from '../parts/screen-head.tsx'

export function OwnerReportsScreen() {
  return <ScreenHead title="Owner reports" />
}
