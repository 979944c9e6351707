import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { bytesWords, plural } from '../../domain/text/words.ts'
import { api, type client, queryClient } from '../client.ts'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { UnderWay } from '../parts/frame/under-way.tsx'

type Whole = Awaited<ReturnType<typeof client.wholeWorkshop.query>>

const SOON_MS = 1_000

/** Everything as one archive, for a signed-in manager: what is in it, how far it is, and why it broke off. */
export function WholeWorkshop() {
  const query = useQuery({
    ...api.wholeWorkshop.queryOptions(),
    refetchInterval: ({ state }) => (state.data?.progress?.doing === 'writing' ? SOON_MS : false),
  })
  const [isAsked, setIsAsked] = useState(false)
  const follow = () => {
    setIsAsked(true)
    // The saving begins with the click; what it comes to is asked for until it has ended.
    window.setTimeout(
      () => void queryClient.invalidateQueries({ queryKey: api.wholeWorkshop.queryKey() }),
      SOON_MS,
    )
  }
  return (
    <section className="stack-tight">
      <h2>The whole workshop</h2>
      <p>
        Everything that is recorded here, in open formats: the journal with every fact, contacts, plans, the
        photos as they came and the issued reports, with a description of each file. Panelwright takes it in
        again in an empty folder, on any computer; so can a program of somebody else.
      </p>
      <p className="strong">
        It holds personal data: names, telephone numbers, addresses, prices, and who worked when. Keep it as
        you keep the workshop’s own books.
      </p>
      <p className="quiet">
        Codes and paired devices stay on this computer. Where the workshop is taken in, a manager chooses a
        code in Panelwright’s own window and sets the others’ codes under People.
      </p>
      <Loaded query={query}>
        {(whole) => (
          <>
            <div className="button-row">
              <a className="button" href="/whole-workshop.zip" download onClick={follow}>
                Save the whole workshop (ZIP, {sizeWords(whole)})
              </a>
            </div>
            {isAsked && <Progress progress={whole.progress} />}
          </>
        )}
      </Loaded>
    </section>
  )
}

function Progress({ progress }: Pick<Whole, 'progress'>) {
  switch (progress?.doing) {
    case undefined:
      return null
    case 'writing':
      return (
        <UnderWay label="Saving the whole workshop" done={progress.done} of={progress.of}>
          {progress.done} of {plural('file', progress.of)} saved. Leave this computer on until it is done.
        </UnderWay>
      )
    case 'finished':
      return (
        <Notice kind="done">
          <p>
            Saved: {plural('file', progress.files)}, {bytesWords(progress.bytes)}.
          </p>
        </Notice>
      )
    case 'refused':
      return <RefusalNote refusal={progress.refusal} />
  }
}

const sizeWords = ({ photos, photoBytes }: Whole): string =>
  photos === 0 ? 'no photos' : `${plural('photo', photos)}, about ${bytesWords(photoBytes)}`
