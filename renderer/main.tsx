import './no-eval.ts'
import './look/fonts.css'
import './look/tokens.css'
import './look/base.css'
import './look/words.css'
import './look/buttons.css'
import './look/fields.css'
import './look/notices.css'
import './look/dialogs.css'
import './look/photos.css'
import './look/drawings.css'
import './look/floor.css'
import './look/hours.css'
import './look/shell.css'
import './look/forced-colours.css'
import { QueryClientProvider } from '@tanstack/react-query'
import { RouterProvider } from '@tanstack/react-router'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { askAhead } from './ask-ahead.ts'
import { queryClient } from './client.ts'
import { fetchWhenIdle } from './fetch-when-idle.ts'
import { startKeepingViews } from './outbox/kept-views.ts'
import { startOutbox } from './outbox/outbox.ts'
import { SaidAloud } from './parts/frame/said-aloud.tsx'
import { router } from './routes.tsx'
import { fetchTemporal } from './temporal.ts'

const place = document.getElementById('root')
if (place === null) throw new Error('index.html has no #root')

void fetchTemporal().then(() => {
  startKeepingViews()
  void askAhead(window.location.pathname)
  startOutbox()
  createRoot(place).render(
    <StrictMode>
      <QueryClientProvider client={queryClient}>
        <RouterProvider router={router} />
        <SaidAloud />
      </QueryClientProvider>
    </StrictMode>,
  )
})
const whenResolved = router.subscribe('onResolved', () => {
  whenResolved()
  void fetchWhenIdle()
})
