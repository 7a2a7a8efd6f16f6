import { createTrainWorker } from '@trainwright/trains/worker'
import { demo } from './demo.js'
import './elements/tw-app.js'
import type { Desk } from './elements/base.js'
import type { App } from './elements/tw-app.js'
import { Answers } from './state/answers.js'
import { Job } from './state/job.js'
import { keep, recall } from './state/keep.js'
import { ShownProblems } from './state/shown-problems.js'
import { Store } from './state/store.js'

const job = new Job(recall(() => localStorage) ?? demo(), new Answers(createTrainWorker()))
const desk: Desk = { job, shown: new ShownProblems(job), picked: new Store<string | null>(null) }

const app: App = document.createElement('tw-app')
app.desk = desk
app.wide = matchMedia('(min-width: 60rem)').matches
job.typed.watch(() => {
  app.kept = keep(() => localStorage, job.typed.value)
})
document.body.append(app)
