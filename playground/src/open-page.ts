import type { Problem } from '@trainwright/measures'
import type { TrainWorker } from '@trainwright/trains/worker'
import { type Arrival, receive, watchAddress, watchTabs } from './arrival.js'
import './elements/tw-app.js'
import type { Desk } from './elements/base.js'
import { fitPaper } from './elements/fit-paper.js'
import { keepFocus } from './elements/keep-focus.js'
import { allDrawn } from './elements/turns.js'
import type { App } from './elements/tw-app.js'
import { undoKeys } from './elements/undo-keys.js'
import type { Drawer } from './state/drawer.js'
import type { Held } from './state/held.js'
import type { Job } from './state/job.js'
import { Keeper } from './state/keeper.js'
import { Lazy } from './state/lazy.js'
import { Mounted } from './state/mounted.js'
import type { Recalled } from './state/recall.js'
import { Recognising } from './state/recognising.js'
import { Sheets } from './state/sheets.js'
import { ShownProblems } from './state/shown-problems.js'
import { Store } from './state/store.js'
import { Top } from './state/top.js'
import { Updates } from './updates.js'

/** ms after which the late parts are sent for without an answer. */
const PATIENCE = 2000

/** What was there, or came, before the page, and the question that has been asked. */
export interface Begun {
  drawer: Drawer
  tab: Drawer
  recalled: Recalled
  came: Arrival | null
  held: Held
  worker: TrainWorker
  job: Job
}

/** Lays out everything of the page round a question that has been asked. */
export function openPage({ drawer, tab, recalled, came, held, worker, job }: Begun): void {
  const keeper = new Keeper(held, job, drawer, tab, recalled.held === null)
  // To reload loses nothing, unless the browser keeps nothing.
  const updates = new Updates(() => keeper.value.kept && location.reload())
  const picked = new Store<string | null>(null)
  const late = new Lazy(() => import('./elements/late-parts.js'))
  const sheets = new Sheets(job, picked, late)
  const recognising = new Recognising(job, late)
  const mounted = new Mounted(job, worker)
  const aside = new Store<{ problems: readonly Problem[] }>({ problems: [] })
  const top = new Top(recalled.top, tab)
  const shown = new ShownProblems(job, [sheets, recognising, mounted, aside])
  let show = () => {}
  const shownFirst = new Promise<void>((done) => {
    show = done
  })
  const answered = Promise.all([firstAnswer(job), shownFirst]).then(allDrawn)
  const stores = { job, shown, picked, keeper, updates, sheets, recognising, mounted, aside, top, late }
  const desk: Desk = { worker, ...stores, answered }
  // The train is answered first, unless that takes long: the rest comes when it stands on the page.
  void Promise.race([answered, new Promise((done) => setTimeout(done, PATIENCE))]).then(() => late.load())
  if (came) receive(keeper, came)

  const app: App = document.createElement('tw-app')
  app.desk = desk
  app.wide = matchMedia('(min-width: 60rem)').matches
  document.body.append(app)
  fitPaper(app)
  keepFocus(app)
  // It is drawn in pieces, and shown when they are together: nothing jumps.
  void allDrawn().then(() => {
    app.setAttribute('data-drawn', '')
    show()
  })

  undoKeys(job, keeper)
  watchTabs(keeper)
  watchAddress(keeper)
  if ('serviceWorker' in navigator) {
    // The first answer goes first: what is laid by for days without network takes its time.
    void answered.then(() => updates.start(navigator.serviceWorker, './sw.js'))
  }
}

/** Settles when the first question has been answered or refused. */
function firstAnswer({ answers }: Job): Promise<void> {
  const { search, problems, failure } = answers.value
  if (search || problems.length > 0 || failure !== null) return Promise.resolve()
  return new Promise((done) => {
    const end = answers.watch(() => {
      if (answers.value.working) return
      end()
      done()
    })
  })
}
