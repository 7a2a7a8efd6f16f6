import './tw-chart.js'
import './tw-gear.js'
import './tw-making.js'
import './tw-wishes.js'
