// Solves the demo workshop in the terminal: the whole set-up sheet of the first thread, the trains of all.
import { readFileSync } from 'node:fs'
import { errorFigures, setUpSheet, sheetLines, sheetParts, trainInLine } from '@trainwright/sheet'
import { findTrains, proposeGears } from '@trainwright/trains'

/** @type {{ workshop: import('@trainwright/trains').Workshop, threads: (import('@trainwright/trains').ThreadWanted & { work?: import('@trainwright/sheet').ThreadWork })[] }} */
const { workshop, threads } = JSON.parse(
  readFileSync(new URL('../../test-data/demo-workshop.json', import.meta.url), 'utf8'),
)

const { leadscrew, studs } = workshop.lathe
const box = workshop.gears.map(({ teeth, count = 1 }) => (count > 1 ? `${teeth}x${count}` : teeth)).join(' ')
console.log(`${workshop.name}: leadscrew ${leadscrew.pitch}, ${studs} studs\nBox: ${box}`)

threads.forEach((thread, i) => {
  const { trains, closest, counts, obstacles } = findTrains(workshop, thread)
  const { pitch, hand = 'right', name } = thread
  console.log(`\n${i + 1}. ${name}: ${pitch}, ${hand}-hand`)
  const train = trains[0] ?? closest
  if (trains.length === 0) {
    console.log('   No train goes on within tolerance.')
    for (const { message } of obstacles) console.log(`   - ${message}`)
    const [proposal] = proposeGears(workshop, [thread], { limit: 1 }).proposals
    if (proposal) console.log(`   One more gear cuts it: make one of ${proposal.make[0].teeth} teeth.`)
    if (closest) console.log('   The closest that goes on:')
  }
  if (!train) return
  console.log(`   ${trainInLine(train)}   ${errorFigures(train).ppm}`)
  const sheet = setUpSheet(workshop, thread, train, thread.work)
  const parts = sheetParts(sheet).filter(({ key }) => key === 'gears' || key === 'lead')
  const lines = i > 0 ? parts.flatMap((part) => part.lines) : sheetLines(sheet)
  for (const line of lines) console.log(line && `   ${line}`)
  if (counts.mountable > 1) console.log(`   (${counts.mountable} gear sets go on; this is the first.)`)
})

console.log(`
Before you change a gear: switch off and isolate the lathe. Turn the train by hand before power, with the guard closed.
The manual of your lathe comes first.

npm run page opens the page.`)
