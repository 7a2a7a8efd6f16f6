import { html, type TemplateResult } from 'lit'
import { withUnit } from '../state/read-text.js'
import { blankThread, type TypedThread } from '../state/typed.js'
import { pitchHint } from '../words.js'
import { Part } from './base.js'
import { choice, note, textField, when } from './fields.js'
import './tw-finder.js'
import './tw-measured.js'

/** The threads of the job, and the one in hand as cells to fill in. */
export class ThreadPart extends Part {
  #choose(thread: number): void {
    this.desk.picked.set(null)
    this.desk.job.type({ thread })
  }

  #add(): void {
    const { threads } = this.desk.job.typed.value
    this.desk.picked.set(null)
    this.desk.job.type({ threads: [...threads, blankThread()], thread: threads.length })
    void this.updateComplete.then(() => this.querySelector<HTMLInputElement>('#f-wanted-pitch')?.focus())
  }

  #remove(): void {
    const { threads, thread } = this.desk.job.typed.value
    this.desk.picked.set(null)
    const left = threads.filter((_, i) => i !== thread)
    this.desk.job.type({ threads: left, thread: Math.min(thread, left.length - 1) })
    void this.updateComplete.then(() => this.querySelector<HTMLButtonElement>('[aria-pressed=true]')?.focus())
  }

  #ticket(thread: TypedThread, index: number): TemplateResult {
    const current = index === this.desk.job.typed.value.thread
    const pitch = withUnit(thread.pitch).trim() || 'no pitch yet'
    const starts = Number(thread.starts) > 1 ? `, ${thread.starts.trim()} starts` : ''
    return html`<li>
      <button type="button" class="ticket" aria-pressed=${current} @click=${() => this.#choose(index)}>
        <span class="ticket-name">${thread.name.trim() || `Thread ${index + 1}`}</span>
        <span class="ticket-pitch">${pitch}${thread.hand === 'left' ? ' LH' : ''}${starts}</span>
      </button>
    </li>`
  }

  #tolerance(thread: TypedThread): TemplateResult {
    const { desk } = this
    const { tolerance } = thread
    return html`${choice({
      desk,
      path: 'wanted.tolerance.by',
      label: 'Lead tolerance',
      options: [
        ['ppm', 'ppm'],
        ['length', 'length'],
      ],
      span: 2,
    })}
    ${
      tolerance.by === 'ppm'
        ? textField({
            desk,
            path: 'wanted.tolerance.ppm',
            label: 'Parts per million',
            hint: '500 if left blank',
            keys: 'decimal',
            span: 4,
          })
        : html`${textField({
            desk,
            path: 'wanted.tolerance.error',
            label: 'This much',
            hint: '0.005 mm',
            span: 2,
          })}
            ${textField({
              desk,
              path: 'wanted.tolerance.over',
              label: 'Over',
              hint: '25 mm',
              span: 2,
            })}`
    }`
  }

  protected override render(): TemplateResult {
    const { desk } = this
    const { job } = desk
    const { threads } = job.typed.value
    const { thread } = job
    return html`<h2>Thread wanted</h2>
      <ul class="tickets">
        ${threads.map((one, i) => this.#ticket(one, i))}
        <li><button type="button" class="ticket add" @click=${() => this.#add()}>+ Add a thread</button></li>
      </ul>
      <tw-finder .desk=${desk}></tw-finder>
      <div class="cells">
        ${textField({
          desk,
          path: 'wanted.pitch',
          label: 'Pitch',
          hint: pitchHint(thread.pitch, '0.7 mm, 26 tpi, 1/8 in, 0.5 module, 32 dp'),
          span: 4,
        })}
        ${textField({
          desk,
          path: 'wanted.starts',
          label: 'Starts',
          keys: 'numeric',
          span: 2,
        })}
        ${choice({
          desk,
          path: 'wanted.hand',
          label: 'Hand',
          options: [
            ['right', 'Right'],
            ['left', 'Left'],
          ],
        })}
        ${textField({
          desk,
          path: 'wanted.name',
          label: 'What it is for',
        })}
        ${this.#tolerance(thread)}
      </div>
      <tw-measured .desk=${desk}></tw-measured>
      ${when(desk.shown.value.has('wanted.tolerance'), () => note(desk, 'wanted.tolerance'))}
      ${when(
        threads.length > 1,
        () =>
          html`<p class="quiet-actions">
            <button type="button" class="quiet" @click=${() => this.#remove()}>Take this thread off the list</button>
          </p>`,
      )}`
  }
}

customElements.define('tw-thread', ThreadPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-thread': ThreadPart
  }
}
