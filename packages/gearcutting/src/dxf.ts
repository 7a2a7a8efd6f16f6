import { DxfWriter, LWPolylineFlags, point3d, Units } from '@tarikjabiri/dxf'
import { InputError } from '@trainwright/measures'
import { faultsOf } from './no-outline.js'
import type { Outline } from './outline.js'

/**
 * The outline as a DXF file in millimetres (AC1021): closed polylines of arcs and straights, and circles, each on a
 * layer named for it (TEETH, BORE, PIN). Import this entry on demand; it brings the DXF library with it.
 *
 * ```ts
 * const { outlineDxf } = await import('@trainwright/gearcutting/dxf')
 * ```
 * @throws InputError when it is no outline.
 */
export function outlineDxf(outline: Outline): string {
  const faults = faultsOf(outline)
  if (faults.length > 0) throw new InputError(faults)
  const { loops, circles } = outline
  const drawing = new DxfWriter()
  drawing.setUnits(Units.Millimeters)
  const layer = (name: string): { layerName: string } => {
    const layerName = name.toUpperCase()
    if (!drawing.layer(layerName)) drawing.addLayer(layerName, 7, 'Continuous')
    return { layerName }
  }
  for (const { name, vertices } of loops) {
    const points = vertices.map(({ x, y, bulge }) => ({ point: { x, y }, bulge }))
    drawing.addLWPolyline(points, { ...layer(name), flags: LWPolylineFlags.Closed })
  }
  for (const { name, x, y, diameter } of circles) drawing.addCircle(point3d(x, y), diameter / 2, layer(name))
  return drawing.stringify()
}
