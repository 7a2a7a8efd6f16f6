/**
 * Moves labels along a line so that they do not overlap, as little as possible and in the order of their wishes.
 * `wishes` are the centres wanted, `sizes` the lengths taken; the answer holds the centres, in the same order.
 */
export function spread(wishes: readonly number[], sizes: readonly number[], gap: number): number[] {
  const order = wishes.map((_, i) => i).sort((a, b) => wishes[a]! - wishes[b]! || a - b)
  // Neighbours that would overlap become one cluster, which stands where its members' wishes are on average.
  const clusters: { members: number[]; start: number; length: number }[] = []
  const place = (members: number[]): (typeof clusters)[number] => {
    let length = -gap
    let wish = 0
    for (const i of members) {
      wish += wishes[i]! - (length + gap + sizes[i]! / 2)
      length += gap + sizes[i]!
    }
    return { members, start: wish / members.length, length }
  }
  for (const i of order) {
    let cluster = place([i])
    let before = clusters.at(-1)
    while (before && before.start + before.length + gap > cluster.start) {
      clusters.pop()
      cluster = place([...before.members, ...cluster.members])
      before = clusters.at(-1)
    }
    clusters.push(cluster)
  }
  const centres = new Array<number>(wishes.length)
  for (const { members, start } of clusters) {
    let from = start
    for (const i of members) {
      centres[i] = from + sizes[i]! / 2
      from += sizes[i]! + gap
    }
  }
  return centres
}
