import { createTrainWorker } from '@trainwright/trains/worker'
import { arrival } from './arrival.js'
import { demo } from './demo.js'
import { breathe } from './elements/turns.js'
import { openPage } from './open-page.js'
import { Answers } from './state/answers.js'
import { Drawer } from './state/drawer.js'
import { heldFrom, typedOf } from './state/held.js'
import { inTurn } from './state/in-turn.js'
import { Job } from './state/job.js'
import { joinTyped } from './state/kept.js'
import { recall } from './state/recall.js'

const drawer = new Drawer(() => localStorage)
const tab = new Drawer(() => sessionStorage)
const recalled = recall(drawer, tab)
const came = await arrival(recalled.visit)

const held = recalled.held ?? heldFrom(demo())
const first = came && 'shop' in came.opened ? joinTyped(came.opened.shop, came.opened.page) : typedOf(held)
const client = createTrainWorker()
const worker = { ...client, layOut: inTurn(client.layOut) }
const job = new Job(first, new Answers(worker))

// The question is on its way to the worker before the page is drawn that shows its answer.
await breathe()
openPage({ drawer, tab, recalled, came, held, worker, job })
