import { html } from 'lit'
import { LEAST, MOST } from '../state/typed-making.js'
import { Part } from './base.js'
import { fold } from './fields.js'
import { late } from './late.js'

/** What the owner would like to cut some day, and what gears can be made here: folded, for the thread in hand comes first. */
export class PlansPart extends Part {
  protected override follows() {
    return [this.desk.job.typed, this.desk.late]
  }

  protected override render() {
    const { desk } = this
    const { wishes, workshop } = desk.job.typed.value
    const lines = wishes.list.split('\n').filter((line) => line.trim() !== '').length
    const { least, most } = workshop.making
    const range = `${least.trim() || LEAST} to ${most.trim() || MOST} teeth`
    return html`${fold('wishes', 'Wish list', lines === 1 ? '1 thread' : `${lines} threads`, late(desk, html`<tw-wishes .desk=${desk}></tw-wishes>`))}
    ${fold('making', 'Gears I can make', range, late(desk, html`<tw-making .desk=${desk}></tw-making>`))}`
  }
}

customElements.define('tw-plans', PlansPart)

declare global {
  interface HTMLElementTagNameMap {
    'tw-plans': PlansPart
  }
}
