import type { TestHost, TestScreen } from './host.ts'
import { manager } from './workshop.ts'

/** Sets a workshop up by its first screen as somebody would who starts with the catalogue and nothing else; answers that screen. */
export async function setUpFellLane({ openScreen }: TestHost): Promise<TestScreen> {
  const screen = await openScreen()
  await screen.run(
    'setUpWorkshop',
    {
      name: 'Fell Lane Bodyworks',
      zone: 'Europe/Berlin',
      currency: 'EUR',
      managerId: manager,
      manager: { name: 'Mona Reed', phone: '', email: '', address: '' },
      code: '314159',
      skills: [],
      withCatalogue: true,
    },
    { by: null },
  )
  return screen
}
