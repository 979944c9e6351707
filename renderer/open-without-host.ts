import { useEffect, useState } from 'react'

/**
 * Keeps the screens on this device, so that they open while the host is away, where the browser allows it: by HTTPS with the
 * certificate trusted, or on loopback. Not in the host's own window, which nobody opens without the host.
 *
 * @returns true when this device holds newer screens than those that are shown; loading the page again shows them
 */
export function useOpenWithoutHost(isHostsOwn: boolean): boolean {
  const [isOlder, setIsOlder] = useState(false)
  useEffect(() => {
    if (!isHostsOwn && window.isSecureContext && 'serviceWorker' in navigator)
      // Where the certificate is not trusted the browser refuses: the page works as long as it is open.
      keepScreens(() => setIsOlder(true)).catch(() => undefined)
  }, [isHostsOwn])
  return isOlder
}

async function keepScreens(onNewer: () => void): Promise<void> {
  const registration = await navigator.serviceWorker.register('/service-worker.js', { scope: '/' })
  const bringIntoForce = (worker: ServiceWorker) => {
    const { port1, port2 } = new MessageChannel()
    port1.addEventListener('message', ({ data }) => data !== ownVersion() && onNewer())
    port1.start()
    worker.postMessage(ownVersion(), [port2])
  }
  const follow = (coming: ServiceWorker | null) =>
    coming?.addEventListener('statechange', () => {
      // The first one is in force at once.
      if (coming.state === 'installed' && registration.active !== null) bringIntoForce(coming)
    })
  if (registration.waiting !== null) bringIntoForce(registration.waiting)
  // Opening this page has the browser look for a newer one by itself, which may be on its way by now.
  follow(registration.installing)
  registration.addEventListener('updatefound', () => follow(registration.installing))
}

const ownVersion = (): string | undefined =>
  document.querySelector<HTMLMetaElement>('meta[name="screens-version"]')?.content
