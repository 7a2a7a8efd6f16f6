import { outlineSvg } from '@trainwright/gearcutting'
import { gather, type Problem } from '@trainwright/measures'
import { errorFigures, sizeOf, trainInLine } from '@trainwright/sheet'
import type { Gear, ThreadWanted, Train } from '@trainwright/trains'
import { html, type TemplateResult } from 'lit'
import { putIn } from '../state/box.js'
import { gearDesk } from '../state/gear-desk.js'
import { type GearWork, gearWork, sentences } from '../state/gear-work.js'
import type { Row } from '../state/proposals.js'
import { headOf } from '../state/typed-making.js'
import { gearsInFull, threadInFull } from '../words-making.js'
import { Part } from './base.js'
import { choice, mark, unfold, when } from './fields.js'
import { both, measures, moves, places } from './gear-figures.js'
import { saveFile } from './save-file.js'
import { turnTo } from './turn-to.js'

/** How to make the picked gear: everything from the blank to what is measured at the end, on one page. */
export class GearSheetPart extends Part {
  static override properties = {
    row: { attribute: false },
    wanted: { attribute: false },
    at: { state: true },
    failed: { state: true },
  }
  row!: Row
  wanted!: readonly ThreadWanted[]
  /** Which of a pair. */
  private at = 0
  private failed = ''

  get #gear(): Gear {
    return this.row.make[this.at] ?? this.row.make[0]!
  }

  get #opens(): { wanted: ThreadWanted; train: Train }[] {
    const { train, opens } = this.row
    const others = opens.map((one) => ({ wanted: this.wanted[one.wanted]!, train: one.train }))
    return train ? [{ wanted: this.wanted[0]!, train }, ...others] : others
  }

  get #file(): string {
    return `gear-${this.#gear.teeth}-${sizeOf(this.#gear)
      .replace(/[^\w.]+/g, '-')
      .replace(/-$/, '')}`
  }

  /** The gear joins the box like any other, and its train comes at once. */
  #made(): void {
    const { job } = this.desk
    for (const gear of this.row.make) job.put('kinds', putIn(job.typed.value.workshop.kinds, job.read, gear))
    void turnTo(this.desk, 'train')
  }

  async #saveDxf(work: GearWork): Promise<void> {
    try {
      const { outlineDxf } = await import('@trainwright/gearcutting/dxf')
      saveFile(`${this.#file}.dxf`, 'image/vnd.dxf', outlineDxf(work.outline!))
      this.failed = ''
    } catch {
      this.failed = 'What makes DXF files could not be loaded: try again when there is a network.'
    }
  }

  /** From one tooth to the next; a step that would not come round at the end is none. */
  #step({ indexing }: GearWork['sheet']): string {
    if (!indexing) return `360°/${this.#gear.teeth}`
    if (indexing.kind === 'approximate') return 'no equal step: by the table'
    return indexing.moves.map(({ text }) => text).join(', plate ') || 'not by this head'
  }

  #titleBlock({ sheet }: GearWork): TemplateResult {
    const { cutter } = sheet
    const [first, ...others] = this.#opens
    return html`<dl class="title-block">
      <div>
        <dt>Gear</dt>
        <dd>${this.#gear.teeth} teeth <span class="minor">${sizeOf(this.#gear)}, ${sheet.gear.pressureAngle.text}</span></dd>
      </div>
      <div>
        <dt>Blank, across the tips</dt>
        <dd>${both(sheet.blank.diameter)}</dd>
      </div>
      <div>
        <dt>Depth to feed</dt>
        <dd>${both(sheet.depth)}</dd>
      </div>
      <div>
        <dt>Cutter stamped</dt>
        <dd>${cutter.range ?? 'none'} <span class="minor">${cutter.range ? 'teeth; the stamp rules' : ''}</span></dd>
      </div>
      <div>
        <dt>From tooth to tooth</dt>
        <dd>${this.#step(sheet)}</dd>
      </div>
      <div>
        <dt>For</dt>
        <dd>${first ? threadInFull(first.wanted) : ''} ${when(others.length, () => html`<span class="minor">and ${others.length} more</span>`)}</dd>
      </div>
    </dl>`
  }

  #drawing(work: GearWork): TemplateResult {
    const { outline, refused, sheet } = work
    const text = `Outline of the gear: ${this.#gear.teeth} involute teeth, ${sheet.blank.diameter.text} across the tips, ${sheet.rootDiameter.text} across the roots${sheet.bore ? `, bore ${sheet.bore.diameter.text}` : ''}.`
    if (!outline) return html`<p>${mark(refused)}</p>`
    return html`<figure class="outline">
      <div role="img" aria-label=${text} .innerHTML=${outlineSvg(outline)}></div>
      <figcaption class="tools">
        <button type="button" class="key wide" @click=${() => saveFile(`${this.#file}.svg`, 'image/svg+xml', outlineSvg(outline))}>Save SVG</button>
        <button type="button" class="key wide" @click=${() => void this.#saveDxf(work)}>Save DXF</button>
        <button type="button" class="key wide" @click=${() => window.print()}>Print</button>
      </figcaption>
      ${when(this.failed, () => html`<p role="alert">${mark(this.failed)}</p>`)}
    </figure>`
  }

  #trains(): TemplateResult {
    return html`<table class="set-up opened">
      <caption>What it opens</caption>
      <thead><tr><th scope="col">Thread</th><th scope="col">Train</th><th scope="col">Error</th></tr></thead>
      <tbody>
        ${this.#opens.map(
          ({ wanted, train }) =>
            html`<tr><th scope="row">${threadInFull(wanted)}</th><td>${trainInLine(train)}</td><td>${errorFigures(train).ppm}</td></tr>`,
        )}
      </tbody>
    </table>`
  }

  protected override render(): TemplateResult {
    const { desk, row } = this
    const { making } = gearDesk(desk).read
    const trains = this.#opens.map(({ train }) => train)
    const problems: Problem[] = []
    const work = gather(problems, () =>
      gearWork(this.#gear, trains, making, headOf(desk.job.typed.value.workshop.making)),
    )
    if (!work) return html`<p>${mark(`No sheet: ${sentences(problems)}`)}</p>`
    const { sheet } = work
    return html`<article class="gear-sheet" aria-label=${sheet.title}>
      <div class="gear-head">
        <h3>To make: ${gearsInFull(row.make)}</h3>
        <button type="button" class="go" @click=${() => this.#made()}>${row.make.length > 1 ? 'I have made them' : 'I have made it'}: put in the box</button>
      </div>
      ${when(row.make.length > 1, () =>
        choice({
          desk,
          path: 'gear.sheet',
          label: 'Sheet for',
          value: String(this.at),
          options: row.make.map(({ teeth }, i) => [String(i), `${teeth} teeth`] as const),
          pick: (at) => {
            this.at = Number(at)
          },
        }),
      )}
      ${this.#titleBlock(work)}
      <div class="bench">
        <div>${this.#drawing(work)} ${this.#trains()}</div>
        <div>
          ${measures(work)}
          <section class="indexing" aria-label="Indexing">
            <h3>Indexing</h3>
            ${moves(sheet.indexing)}
            ${when(
              !sheet.indexing,
              () =>
                html`<p class="quiet-actions">
                  <button type="button" class="quiet" @click=${() => unfold('making')}>Type the worm and plates of your head</button>
                </p>`,
            )}
          </section>
        </div>
      </div>
      ${places(work)}
      <section class="safety" aria-label="Safety">
        <h3>Mind</h3>
        <ul>
          ${sheet.cautions.map(({ message }) => html`<li>${message}</li>`)}
        </ul>
      </section>
    </article>`
  }
}

customElements.define('tw-gear-sheet', GearSheetPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-gear-sheet': GearSheetPart
  }
}
