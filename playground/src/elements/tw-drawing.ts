import { drawTrain, trainInLine } from '@trainwright/sheet'
import { drawingToSvg } from '@trainwright/sheet/svg'
import type { Lathe, Train } from '@trainwright/trains'
import { html, type TemplateResult } from 'lit'
import { Part } from './base.js'
import { saveFile } from './save-file.js'

const STEP = 30

/** The train to scale, and the keys that turn it until it looks like the machine. */
export class DrawingPart extends Part {
  static override properties = { train: { attribute: false }, lathe: { attribute: false } }
  train!: Train
  lathe!: Lathe

  protected override follows() {
    return [this.desk.job.typed]
  }

  get #svg(): string {
    return drawingToSvg(drawTrain(this.lathe, this.train), this.desk.job.typed.value.view)
  }

  #turn(by: number): void {
    const { view } = this.desk.job.typed.value
    this.desk.job.put('view.rotate', (view.rotate + by + 360) % 360)
  }

  #mirror(): void {
    const { view } = this.desk.job.typed.value
    this.desk.job.put('view.mirror', !view.mirror)
  }

  #save(): void {
    const name = trainInLine(this.train).replace(/\D+/g, '-')
    saveFile(`train-${name}.svg`, 'image/svg+xml', `<?xml version="1.0" encoding="UTF-8"?>\n${this.#svg}`)
  }

  protected override render(): TemplateResult {
    const { mirror } = this.desk.job.typed.value.view
    return html`<figure class="drawing">
      <div .innerHTML=${this.#svg}></div>
      <figcaption class="tools">
        <span class="tools-said">Turn it to look like your lathe</span>
        <button type="button" class="key" aria-label="Turn anticlockwise" @click=${() => this.#turn(STEP)}>↺</button>
        <button type="button" class="key" aria-label="Turn clockwise" @click=${() => this.#turn(-STEP)}>↻</button>
        <button type="button" class="key wide" aria-pressed=${mirror} @click=${() => this.#mirror()}>Mirror</button>
        <button type="button" class="key wide" @click=${() => this.#save()}>Save SVG</button>
        <button type="button" class="key wide" @click=${() => window.print()}>Print</button>
      </figcaption>
    </figure>`
  }
}

customElements.define('tw-drawing', DrawingPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-drawing': DrawingPart
  }
}
