// Answers questions to the packages as they were built: the same in a browser, in a process of its own, and in a test.
import { outline, spurGear } from '@trainwright/gearcutting'
import { outlineDxf } from '@trainwright/gearcutting/dxf'
import { drawTrain, setUpSheet } from '@trainwright/sheet'
import { drawingToSvg } from '@trainwright/sheet/svg'
import { overWires, threadDimensions } from '@trainwright/threads'
import { findTrains, layOut, makeChart, proposeGears } from '@trainwright/trains'

/** A train with everything that is made of it. */
function job(workshop, wanted, options) {
  const found = findTrains(workshop, wanted, options)
  const train = found.trains[0] ?? found.closest
  if (!train) return { found }
  const placed = workshop.lathe.banjo ? layOut(workshop.lathe, train) : null
  return {
    found,
    placed,
    sheet: setUpSheet(workshop, wanted, train),
    drawing: drawingToSvg(drawTrain(workshop.lathe, train)),
  }
}

const gear = (question) => ({ gear: spurGear(question), dxf: outlineDxf(outline(question)) })
const thread = (question) => ({
  dimensions: threadDimensions(question),
  over: overWires({ ...question, effective: question.major - 0.4, wire: 0.5, leadCorrection: true }),
})

const calls = { job, makeChart, proposeGears, gear, thread }

/** @param {{ call: keyof typeof calls, args: unknown[] }[]} questions @returns {string[]} each answer as JSON; a refusal too */
export const answers = (questions) =>
  questions.map(({ call, args }) => {
    try {
      return JSON.stringify(calls[call](...args))
    } catch (error) {
      return JSON.stringify({ name: error.name, message: error.message })
    }
  })
