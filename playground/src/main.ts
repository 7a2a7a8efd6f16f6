import type { Problem } from '@trainwright/measures'
import { createTrainWorker } from '@trainwright/trains/worker'
import { arrival, receive, watchAddress, watchTabs } from './arrival.js'
import { demo } from './demo.js'
import './elements/tw-app.js'
import type { Desk } from './elements/base.js'
import { fitPaper } from './elements/fit-paper.js'
import type { App } from './elements/tw-app.js'
import { undoKeys } from './elements/undo-keys.js'
import { Answers } from './state/answers.js'
import { Drawer } from './state/drawer.js'
import { heldFrom, typedOf } from './state/held.js'
import { inTurn } from './state/in-turn.js'
import { Job } from './state/job.js'
import { Keeper } from './state/keeper.js'
import { joinTyped } from './state/kept.js'
import { Lazy } from './state/lazy.js'
import { Mounted } from './state/mounted.js'
import { recall } from './state/recall.js'
import { Recognising } from './state/recognising.js'
import { Sheets } from './state/sheets.js'
import { ShownProblems } from './state/shown-problems.js'
import { Store } from './state/store.js'
import { Top } from './state/top.js'
import { Updates } from './updates.js'

const drawer = new Drawer(() => localStorage)
const tab = new Drawer(() => sessionStorage)
const recalled = recall(drawer, tab)
const came = await arrival(recalled.visit)

const held = recalled.held ?? heldFrom(demo())
const first = came && 'shop' in came.opened ? joinTyped(came.opened.shop, came.opened.page) : typedOf(held)
const client = createTrainWorker()
const worker = { ...client, layOut: inTurn(client.layOut) }
const job = new Job(first, new Answers(worker))
const keeper = new Keeper(held, job, drawer, tab, recalled.held === null)
// To reload loses nothing, unless the browser keeps nothing.
const updates = new Updates(() => keeper.value.kept && location.reload())
const picked = new Store<string | null>(null)
const sheets = new Sheets(job, picked, new Lazy(() => import('./state/sheet-maker.js')))
const recognising = new Recognising(job, new Lazy(() => import('./state/thread-finder.js')))
const mounted = new Mounted(job, worker)
const aside = new Store<{ problems: readonly Problem[] }>({ problems: [] })
const top = new Top(recalled.top, tab)
const making = new Lazy(() => import('./elements/making-parts.js'))
const shown = new ShownProblems(job, [sheets, recognising, mounted, aside])
const desk: Desk = { worker, job, shown, picked, keeper, updates, sheets, recognising, mounted, aside, top, making }
if (came) receive(keeper, came)

const app: App = document.createElement('tw-app')
app.desk = desk
app.wide = matchMedia('(min-width: 60rem)').matches
document.body.append(app)
fitPaper(app)

undoKeys(job, keeper)
watchTabs(keeper)
watchAddress(keeper)
if ('serviceWorker' in navigator) {
  const start = () => updates.start(navigator.serviceWorker, './sw.js')
  // The first answer goes first.
  if (document.readyState === 'complete') start()
  else addEventListener('load', start)
}
