import { demo } from '../src/demo.js'
import { blankThread, type Typed } from '../src/state/typed.js'
import { blankWishes } from '../src/state/typed-making.js'

/**
 * What the first version of the page kept of its demonstration, letter for letter. It passed on under `also` what it
 * did not ask for.
 */
export const FIRST_VERSION =
  '{"version":1,"typed":{"threads":[{"name":"Eyepiece cell","pitch":"40 tpi","starts":"1","hand":"right","tolerance":{"by":"ppm","ppm":"500","error":"0.005 mm","over":"25 mm"}},{"name":"Foot screws","pitch":"1 mm","starts":"1","hand":"right","tolerance":{"by":"ppm","ppm":"500","error":"0.005 mm","over":"25 mm"}},{"name":"Tangent screw","pitch":"48 tpi","starts":"1","hand":"left","tolerance":{"by":"ppm","ppm":"500","error":"0.005 mm","over":"25 mm"}},{"name":"Tripod head","pitch":"11 tpi","starts":"1","hand":"right","tolerance":{"by":"length","ppm":"500","error":"0.005 mm","over":"25 mm"}}],"thread":0,"workshop":{"name":"Bench lathe, the level job","lathe":{"leadscrew":{"pitch":"8 tpi","hand":"right"},"studs":"2","planes":"2","centreDistance":"110","shaftClearance":"12","room":{"input":"","output":""},"fixed":{"input":"","output":""},"drives":[],"gearbox":[],"also":{"halfNuts":true,"dial":{"travel":"4 in","lines":8},"screwedNose":true,"speeds":[45,80,150,260,450,800]}},"kinds":[{"line":"20x2 24 30 32 36 40 45 48 50 54 60 63 65 72 80","by":"module","size":"1","angle":"20","shafts":["input","stud","output"]}],"also":{"wires":[0.3,0.4,0.5,0.7,1,1.35],"head":{"worm":40,"plates":[[15,16,17,18,19,20],[21,23,27,29,31,33],[37,39,41,43,47,49]]}}},"order":"fewest gears","view":{"rotate":90,"mirror":false}}}'

/** The same as it is read now: what it passed on is typed, and what it did not know yet is blank. */
export function readNow(): Typed {
  const { work } = blankThread()
  return { ...demo(), wishes: blankWishes(), threads: demo().threads.map((thread) => ({ ...thread, work })) }
}
