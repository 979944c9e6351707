import { useQuery } from '@tanstack/react-query'
import { Link, Outlet, useLocation, useNavigate } from '@tanstack/react-router'
import { Suspense, useEffect, useRef, useState } from 'react'
import { SCREENS } from '../domain/screens.ts'
import { api, notPaired, type SessionView } from './client.ts'
import { forgetPeopleGone, forgetViews } from './outbox/kept-views.ts'
import type { KeyAct } from './keys/key-act.ts'
import { useKeys } from './keys/use-keys.ts'
import { useLive } from './live.ts'
import { useMenuKeys } from './menu-place.ts'
import { useOpenWithoutHost } from './open-without-host.ts'
import { outbox } from './outbox/outbox.ts'
import { ActorProvider, useActor } from './parts/sign/actor.tsx'
import { WordButton } from './parts/form/button.tsx'
import { FindButton } from './find/find-button.tsx'
import { type FrameSheet, FrameSheets, useFrameSheets } from './parts/frame/frame-sheets.ts'
import { helpFor } from './help/help-names.ts'
import { Loaded } from './parts/frame/loaded.tsx'
import { Menu } from './parts/form/menu.tsx'
import { NoCodesYet } from './parts/sign/no-codes-yet.tsx'
import { onDemand } from './parts/frame/on-demand.tsx'
import { OutboxStrip } from './outbox/outbox-strip.tsx'
import { ShutOut } from './parts/frame/shut-out.tsx'

const FindDialog = onDemand(async () => (await import('./find/find-dialog.tsx')).FindDialog)
const KeysDialog = onDemand(async () => (await import('./keys/keys-dialog.tsx')).KeysDialog)

/** On a phone these are in reach of the thumb, the rest behind 'More'. */
const ON_PHONE: readonly string[] = ['/shop-floor', '/day-sheet', '/cars']
const isOnPhone = ({ to }: (typeof SCREENS)[number]): boolean => ON_PHONE.includes(to)

/** The frame of every screen: who acts, where one can go, what has not been sent yet. */
export function AppShell() {
  const session = useQuery(api.session.queryOptions())
  const denied = notPaired(session.error)
  useObey(session.data)
  useEffect(() => {
    if (denied !== null) void forgetViews().catch(() => undefined)
  }, [denied])
  if (denied !== null) return <ShutOut message={denied.message} />
  return (
    <Loaded query={session}>
      {(view) => (
        <ActorProvider session={view} readAt={session.dataUpdatedAt}>
          {view.setUp ? <Frame revision={view.revision} /> : <BeforeSetUp session={view} />}
        </ActorProvider>
      )}
    </Loaded>
  )
}

const HOUR_MS = 3_600_000

/** What the host says of itself with every session: from which copy it goes on, what copies hold, who works here. */
function useObey(session: SessionView | undefined): void {
  const firstEpoch = useRef<string>(undefined)
  const { epoch, copiedTo = null, now = 0 } = session ?? {}
  const hour = Math.floor(now / HOUR_MS)
  useEffect(() => {
    if (epoch === undefined) return
    const isOtherHere = (firstEpoch.current ??= epoch) !== epoch
    void outbox.obey({ epoch, copiedTo }).then(async (isOtherOnDevice) => {
      if (!isOtherHere && !isOtherOnDevice) return
      // Nothing of what was read is true any more, down to the journal numbers that the screens follow.
      await forgetViews().catch(() => undefined)
      window.location.reload()
    })
  }, [epoch, copiedTo, hour])
  const people = session?.people
  useEffect(() => {
    if (people !== undefined) void forgetPeopleGone(people).catch(() => undefined)
  }, [people])
}

function BeforeSetUp({ session }: { readonly session: SessionView }) {
  const navigate = useNavigate()
  const { pathname } = useLocation()
  useLive(session.revision)
  useEffect(() => {
    if (!session.setUp && pathname !== '/first-run') void navigate({ to: '/first-run', replace: true })
  }, [navigate, pathname, session.setUp])
  return (
    <main className="desk">
      <Suspense>{pathname === '/first-run' && <Outlet />}</Suspense>
    </main>
  )
}

function Frame({ revision }: { readonly revision: number }) {
  const connection = useLive(revision)
  const { session, askManager } = useActor()
  const isOlder = useOpenWithoutHost(session.isHostsOwn)
  const navigate = useNavigate()
  const [sheet, setSheet] = useState<FrameSheet | null>(null)
  const place = useLocation()
  useKeys((act: KeyAct) => {
    if (act.kind === 'go') void navigate({ to: act.to })
    else if (act.kind === 'help') void navigate({ to: '/help', search: { of: helpFor(place) } })
    else setSheet(act.kind)
  })
  useMenuKeys(() => setSheet('keys'))
  const close = () => setSheet(null)
  return (
    <FrameSheets value={setSheet}>
      <a className="skip" href="#desk">
        To the content
      </a>
      <div className="shell">
        <div className="side">
          <header className="brand">Panelwright</header>
          <FindButton />
          <nav aria-label="Screens">
            {SCREENS.map(({ to, words }) => (
              <Link key={to} to={to} activeProps={{ 'aria-current': 'page' }}>
                {words}
              </Link>
            ))}
          </nav>
          <HelpLink />
          <Who />
        </div>
        <div>
          <OutboxStrip connection={connection} isOlder={isOlder} />
          <main className="desk" id="desk" tabIndex={-1}>
            <NoCodesYet session={session} onChoose={() => void askManager()} />
            <Suspense>
              <Outlet />
            </Suspense>
          </main>
        </div>
        <BottomBar />
      </div>
      {sheet === 'find' && <FindDialog onClose={close} />}
      {sheet === 'keys' && <KeysDialog onClose={close} />}
    </FrameSheets>
  )
}

function HelpLink() {
  const of = helpFor(useLocation())
  return (
    <Link
      className="help-link"
      to="/help"
      search={{ of }}
      activeOptions={{ includeSearch: false }}
      activeProps={{ 'aria-current': 'page' }}
    >
      Help
    </Link>
  )
}

function Who() {
  const { person, manager, session, choosePerson, askManager, signOut } = useActor()
  const openSheet = useFrameSheets()
  return (
    <aside className="who" aria-label="Who is here">
      {session.demo && <div className="quiet">Demo workshop</div>}
      {person === null ? (
        <PersonMenu />
      ) : (
        <div>
          <span className="strong">{person.name}</span> is here
          <br />
          <WordButton onClick={() => choosePerson(null)}>someone else</WordButton>
        </div>
      )}
      {manager === null ? (
        <WordButton onClick={() => void askManager()}>manager: sign in</WordButton>
      ) : (
        <div>
          Signed in: <span className="strong">{manager.name}</span>
          <br />
          <WordButton onClick={() => void signOut()}>leave</WordButton>
        </div>
      )}
      <div>
        <WordButton onClick={() => openSheet('keys')}>keyboard map</WordButton>
      </div>
    </aside>
  )
}

function PersonMenu() {
  const { session, choosePerson } = useActor()
  return (
    <Menu
      className="word-button"
      label="who is here?"
      entries={session.people
        .filter((person) => person.active)
        .map(({ id, name }) => ({ id, words: name, onChoose: () => choosePerson(id) }))}
    />
  )
}

function BottomBar() {
  const navigate = useNavigate()
  const of = helpFor(useLocation())
  const openSheet = useFrameSheets()
  const { person, manager, choosePerson, askPerson, askManager, signOut } = useActor()
  return (
    <nav className="bottom" aria-label="Screens">
      {SCREENS.filter(isOnPhone).map(({ to, words }) => (
        <Link key={to} to={to} activeProps={{ 'aria-current': 'page' }}>
          {words}
        </Link>
      ))}
      <Menu
        className="more"
        label="More"
        entries={[
          { id: 'find', words: 'Find', onChoose: () => openSheet('find') },
          ...SCREENS.filter((screen) => !isOnPhone(screen)).map(({ to, words }) => ({
            id: to,
            words,
            onChoose: () => void navigate({ to }),
          })),
          { id: 'help', words: 'Help', onChoose: () => void navigate({ to: '/help', search: { of } }) },
          person === null
            ? { id: 'person', words: 'Who is here?', onChoose: () => void askPerson() }
            : {
                id: 'person',
                words: `${person.name} is here: someone else`,
                onChoose: () => choosePerson(null),
              },
          manager === null
            ? { id: 'manager', words: 'Manager: sign in', onChoose: () => void askManager() }
            : { id: 'manager', words: `Signed in: ${manager.name}, leave`, onChoose: () => void signOut() },
        ]}
      />
    </nav>
  )
}
