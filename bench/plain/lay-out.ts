import type { Lathe, Layout, ShaftGears } from '@trainwright/trains'
export function layOutPlain(_lathe: Lathe, _shafts: readonly ShaftGears[]): Layout[] {
  return []
}
export const betterLayout = (_a: Layout, _b: Layout): number => 0
